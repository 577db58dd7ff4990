"""Array types used throughout this package."""

import numpy as np
from numpy.typing import NDArray

FloatArray = NDArray[np.float64]
IntegerArray = NDArray[np.int64]
