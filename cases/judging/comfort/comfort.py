"""How one lies, in numbers."""

from dataclasses import dataclass

from ...record import Metres, Newtons, Pascals, Radians, Record, SquareMetres


@dataclass(frozen=True, repr=False)
class Comfort(Record):
    r"""How a person in contact lies.

    Every number compares designs under the same person; how each is found, how sure it is and what is better stands in
    :data:`~tautlay.cases.judging.comfort.measure_list.MEASURES`, in the same order. None is a medical statement.

    Parameters
    ----------
    trunk_pitch : float
        Of the line from hips to shoulders above the horizontal, :math:`\arctan(\Delta z / \Delta x)`, rad.
    leg_pitch : float
        Of the line from hips to ankles above the horizontal, :math:`\arctan(\Delta z / \Delta x)`, rad.
    roll : float
        Of the line from the right to the left hip above the horizontal, rad: 0 on the back.
    shoulder_roll : float
        Of the line from the right to the left shoulder above the horizontal, rad: 0 on the back.
    back_sag : float
        Largest drop of the back line below the straight line from shoulders to heels, m.
    shoulder_angle : float
        By which the cloth turns up from one end of the shoulders to the other, rad.
    trough_depth : float
        Height of the side cords above the lowest cloth at the shoulders, m.
    shoulder_squeeze : float
        Sideways force of the cloth from shoulder to elbow, mean of both sides, N.
    hip_angle : float
        Between trunk and thigh, rad; 0 when straight.
    knee_flexion : float
        Between thigh and shank, rad; 0 when straight.
    contact_area : float
        Of the loaded cloth that touches the body, A, m2.
    mean_pressure : float
        :math:`W / A` with the weight W, Pa.
    high_pressure : float
        Of the part of the body with the largest force over touched cloth, Pa.
    shoulder_pressure : float
        Sideways on the upper arms, Pa.
    bar_to_face : float
        From the head bar to the head, lying, m.
    bar_to_head_sitting : float
        From the head bar to the head, sitting up, m.
    hold : float
        What holds the person lengthwise, H, N; positive towards the feet.
    rib_cage_pitch, pelvis_pitch, head_pitch : float
        By which each is turned head up against lying flat, rad.
    trunk_bend : float
        Rib cage against pelvis, rad; positive forwards, 0 as when lying flat.
    neck_bend : float
        Head against rib cage, rad; positive forwards, 0 as when lying flat.
    hip_joint : float
        Thighs against pelvis, rad; positive forwards, 0 as when lying flat.
    gauge_pressure : float
        Largest on a square of 5 x 5 cm, Pa.
    gauge_above : float
        Area where such squares show more than 4.3 kPa, m2.
    gauge_area : float
        Area where such squares show more than 0.7 kPa, m2.
    slide : float
        :math:`H / W`.
    high_pressure_part : str
        Part of the body under which the pressure is highest.
    """

    trunk_pitch: Radians
    leg_pitch: Radians
    roll: Radians
    shoulder_roll: Radians
    back_sag: Metres
    shoulder_angle: Radians
    trough_depth: Metres
    shoulder_squeeze: Newtons
    hip_angle: Radians
    knee_flexion: Radians
    rib_cage_pitch: Radians
    pelvis_pitch: Radians
    trunk_bend: Radians
    head_pitch: Radians
    neck_bend: Radians
    hip_joint: Radians
    contact_area: SquareMetres
    mean_pressure: Pascals
    high_pressure: Pascals
    gauge_pressure: Pascals
    gauge_above: SquareMetres
    gauge_area: SquareMetres
    shoulder_pressure: Pascals
    bar_to_face: Metres
    bar_to_head_sitting: Metres
    hold: Newtons
    slide: float
    high_pressure_part: str
