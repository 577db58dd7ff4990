from .page import compose_comparison as compose_comparison
from .page import compose_report as compose_report
from .write import write_comparison as write_comparison
from .write import write_report as write_report
