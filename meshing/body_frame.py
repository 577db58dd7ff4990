r"""A person as a jointed frame of rods with round flesh: what presses on the cloth.

The trunk is a ladder of four rungs (shoulders, chest, waist, hips), stiff in its plane. Nodes in front make
rib cage and pelvis stiff bodies; shoulder blades belong to the rib cage. Head, arms and legs are single rods. How
joints resist stands in ``body_joints``. Masses are those of the segments, shared between the nodes at either side so
that every segment's centre of mass is kept; the heels carry the feet.

The shoulders lie 35 mm above the bed: in all 135 shoulders of people who lay on a table the back edge of the acromion
was at least 26 mm above it (J. Lewis and R. Valentine, BMC Musculoskelet. Disord. 8:64, 2007), in the mean 60 to 70 mm
(from memory), with some 30 mm of flesh below it. What lies on the bed are the blades, at 0.75 of stature and 0.043 of
stature from the middle (between the third and the seventh rib, from memory). A calf of 0.39 m round on a median man is
from memory as well.

Judgements, no source: how round the back is, sinews and the flesh between arm and trunk, that the shoulders are a
little thicker than the upper arm, and that the shoulders do not move against the rib cage.
"""

import itertools
from dataclasses import dataclass

import numpy as np

from ..hammock.arrays import FloatArray, IntegerArray
from ..hammock.body_segments import Segment, list_segments
from ..hammock.body_size import measure_body
from ..hammock.person import Arms, Person
from ..materials.short_repr import write_repr, write_value
from .body_joints import HingeLaw, make_hinges, make_hip, make_knee, make_neck, make_shin, make_waist
from .body_levels import CALF_DOWN, find_heights, find_offsets, find_radii
from .side_posture import HIPS, bend_limbs
from .skin import list_carriers

BONE_EA = 1e5  # N: a limb gives by less than a millimetre
SINEW_EA = 20.0  # N: across the waist, which bends and twists; gives some 5 N m/rad when bending
FLESH_EA = 2e3  # N: between arm and trunk, and between both legs
_SHOULDER_UP = 0.035  # m above the bed

_LEVELS = ("shoulder", "blade", "chest", "waist", "hip", "knee", "calf", "ankle", "elbow", "hand")
_CARRIERS = {  # segment -> the two levels that carry it
    "upper trunk": ("shoulder", "chest"),
    "middle trunk": ("chest", "waist"),
    "lower trunk": ("waist", "hip"),
    "upper arms": ("shoulder", "elbow"),
    "thighs": ("hip", "knee"),
    "shanks": ("knee", "ankle"),
}
_RAILS = ("shoulder", "chest", "waist", "hip")


@dataclass(frozen=True)
class BodyFrame:
    """A person lying flat on the back, or as one lies on the side, turned onto the back.

    Parameters
    ----------
    names : tuple of str
        Nodes, such as "left knee".
    places : (n, 3)
        From the crown towards the feet, to the left, up from the bed, m.
    drawn : float
        How far the hips are bent there, rad: 0 but for somebody who lies on the side.
    masses : (n,)
        kg.
    bones, sinews, links, touching : (k, 2) int
        Pairs of nodes: stiff rods, soft rods across the waist, flesh that holds arms to the trunk, limbs that
        stop each other.
    gap : (k,)
        Distance at which ``touching`` nodes meet, m.
    hinges : (j, 5) int
        Three nodes in a row and the beginning and end of the axis about which they bend.
    laws : tuple of HingeLaw
        How each resists.
    capsules : (c, 2) int
        Axes of the flesh.
    radii : (c, 2)
        m.
    flesh : tuple of str
        Name of each capsule, such as "left upper arm".
    carriers : (c, 5) int
        Nodes with which the skin of each capsule moves and turns: limbs turn with those of the other side.
    """

    names: tuple[str, ...]
    places: FloatArray
    drawn: float
    masses: FloatArray
    bones: IntegerArray
    sinews: IntegerArray
    links: IntegerArray
    touching: IntegerArray
    gap: FloatArray
    hinges: IntegerArray
    laws: tuple[HingeLaw, ...]
    capsules: IntegerArray
    radii: FloatArray
    flesh: tuple[str, ...]
    carriers: IntegerArray

    def __repr__(self) -> str:
        return write_repr(
            self,
            f"{len(self.names)} nodes",
            write_value(float(self.masses.sum()), "mass"),
            f"{len(self.bones)} bones",
            f"{len(self.hinges)} joints",
            f"{len(self.flesh)} capsules",
        )

    def index(self, name: str) -> int:
        """Return the number of a node."""
        return self.names.index(name)


def make_frame(person: Person) -> BodyFrame:
    """Return ``person`` as a frame, lying flat.

    Examples
    --------
    >>> from tautlay.hammock import example_person
    >>> frame = make_frame(example_person())
    >>> len(frame.names), round(float(frame.masses.sum()), 6)
    (24, 80.0)
    """
    return _Builder(person).build()


class _Builder:
    """Collects nodes and members."""

    def __init__(self, person: Person) -> None:
        self.person = person
        self.size = measure_body(person.sex, person.stature, person.mass)
        self.segments = {segment.name: segment for segment in list_segments(person)}
        self.on_side = person.posture.on_side
        self.folded = person.posture.arms is Arms.FOLDED or self.on_side
        self.radius = find_radii(self.size, self.segments)
        self.along = find_heights(person.stature, self.segments)
        self.names: list[str] = []
        self.places: list[tuple[float, float, float]] = []

    def build(self) -> BodyFrame:
        """Return the frame."""
        self._place_nodes()
        bones, hinges = self._join_bones(), self._list_hinges()
        capsules = self._list_flesh()
        touching: list[tuple[str, ...]] = [(f"left {level}", f"right {level}") for level in ("knee", "ankle")]
        pairs = np.array([[self.names.index(a), self.names.index(b)] for _, a, b, _, _ in capsules])
        return BodyFrame(
            names=tuple(self.names),
            places=np.array(self.places),
            drawn=HIPS if self.on_side else 0.0,
            masses=self._share_masses(),
            bones=self._number(bones),
            sinews=self._number(self._list_sinews()),
            links=self._number(self._list_links()),
            touching=self._number(touching),
            gap=np.array([2 * self.radius["knee"], 2 * self.radius["ankle"]]),
            hinges=self._number([nodes for nodes, _ in hinges]),
            laws=tuple(law for _, law in hinges),
            capsules=pairs,
            radii=np.array([[first, second] for *_, first, second in capsules]),
            flesh=tuple(name for name, *_ in capsules),
            carriers=self._number([list_carriers(name) for name, *_ in capsules]),
        )

    def _place_nodes(self) -> None:
        """Lay head, neck and both sides flat."""
        lift = {
            "head": self.size["head length"] / 2,
            "neck": 1.4 * self.radius["shoulder"] + _SHOULDER_UP,
            "breast": self.size["chest depth"],
            "belly": self.size["buttock depth"],
        }
        self.names += list(lift)
        self.places += [(self.along[name], 0.0, height) for name, height in lift.items()]
        offsets = find_offsets(self.person.stature, self.size, self.radius)
        for level in _LEVELS:
            if level == "hand" and self.folded:
                continue
            for side, sign in (("left", 1.0), ("right", -1.0)):
                self.names.append(f"{side} {level}")
                self.places.append((self.along[level], sign * offsets[level], self._find_lift(level)))
        if self.on_side:
            bent = bend_limbs(dict(zip(self.names, map(np.array, self.places), strict=True)))
            self.places = [tuple(bent.get(name, place)) for name, place in zip(self.names, self.places, strict=True)]

    def _find_lift(self, level: str) -> float:
        """Return the height of a level's nodes: flesh touches the bed but at the shoulders and at folded elbows."""
        if level == "elbow" and self.folded and not self.on_side:
            return self.size["chest depth"] / 2
        if level == "calf":  # in line
            return (1 - CALF_DOWN) * self._find_lift("knee") + CALF_DOWN * self._find_lift("ankle")
        if level == "knee":  # a hollow behind it: the calf touches the bed
            calf, ankle = self.radius["calf"], self.radius["ankle"]
            return max(self.radius["knee"], (calf - CALF_DOWN * ankle) / (1 - CALF_DOWN))
        return self.radius[level] + (_SHOULDER_UP if level == "shoulder" else 0.0)

    def _number(self, members: list[tuple[str, ...]]) -> IntegerArray:
        """Return node numbers of members given by name."""
        return np.array([[self.names.index(name) for name in member] for member in members])

    def _join_bones(self) -> list[tuple[str, ...]]:
        """Return the stiff rods."""
        bones: list[tuple[str, ...]] = [("head", "neck")]
        bones += [(f"left {level}", f"right {level}") for level in _RAILS]
        for a, b in itertools.pairwise(_RAILS):
            bones += [(f"{first} {a}", f"{second} {b}") for first in ("left", "right") for second in ("left", "right")]
        for side in ("left", "right"):
            bones += [("neck", f"{side} shoulder"), ("neck", f"{side} chest")]
            bones += [("breast", f"{side} {level}") for level in ("shoulder", "blade", "chest")]
            bones += [
                (f"{side} blade", f"{other} {level}") for other in ("left", "right") for level in ("shoulder", "chest")
            ]
            bones += [("belly", f"{side} {level}") for level in ("waist", "hip")]
            chain = ["hip", "knee", "calf", "ankle"]
            bones += [(f"{side} {a}", f"{side} {b}") for a, b in itertools.pairwise(chain)]
            bones += [(f"{side} shoulder", f"{side} elbow")]
            bones += [] if self.folded else [(f"{side} elbow", f"{side} hand")]
        return bones

    def _list_sinews(self) -> list[tuple[str, ...]]:
        """Return what joins rib cage and pelvis across the waist, front to back."""
        ends = (("breast", "waist"), ("belly", "chest"))
        return [(front, f"{side} {level}") for front, level in ends for side in ("left", "right")]

    def _list_links(self) -> list[tuple[str, ...]]:
        """Return what keeps the arms beside the trunk, or before it."""
        if self.on_side:
            return [
                (f"{side} elbow", rib)
                for side, other in (("left", "right"), ("right", "left"))
                for rib in ("breast", f"{other} shoulder", f"{side} blade", "left chest", "right chest")
            ]
        links: list[tuple[str, ...]] = []
        for side in ("left", "right"):
            links += [(f"{side} elbow", f"{side} chest"), (f"{side} elbow", f"{side} waist")]
            links += [] if self.folded else [(f"{side} hand", f"{side} hip"), (f"{side} hand", f"{side} waist")]
        return links

    def _list_hinges(self) -> list[tuple[tuple[str, ...], HingeLaw]]:
        """Return nodes and law of every hinge; both sides share what belongs to the middle."""
        neck, waist = make_neck(), make_waist()
        hip, knee = make_hip(drawn=self.on_side), make_knee(drawn=self.on_side)
        chains = (
            (("chest", "neck", "head"), ("right shoulder", "left shoulder"), neck),
            (("shoulder", "chest", "waist"), ("left chest", "right chest"), waist),
            (("chest", "waist", "hip"), ("left waist", "right waist"), waist),
            (("waist", "hip", "knee"), ("left hip", "right hip"), hip),
            (("hip", "knee", "calf"), ("right hip", "left hip"), knee),
            (("knee", "calf", "ankle"), ("right hip", "left hip"), make_shin()),
        )
        named = [
            ((*(level if level in ("neck", "head") else f"{side} {level}" for level in chain), *axis), law)
            for side in ("left", "right")
            for chain, axis, law in chains
        ]
        free = make_hinges(self._number([nodes for nodes, _ in named]), tuple(law for _, law in named))
        straight = free.result(np.array(self.places)).angle
        return [
            (nodes, law if law in (hip, knee) and not self.on_side else law.shift(angle))
            for (nodes, law), angle in zip(named, straight.tolist(), strict=True)
        ]

    def _list_flesh(self) -> list[tuple[str, str, str, float, float]]:
        """Return name, ends and radii of every capsule."""
        r = self.radius
        flesh = [("head", "head", "head", r["head"], r["head"]), ("neck", "neck", "head", r["neck"], r["neck"])]
        for level, name in (
            ("shoulder", "shoulders"),
            ("blade", "shoulder blades"),
            ("chest", "chest"),
            ("waist", "waist"),
            ("hip", "hips"),
        ):
            flesh.append((name, f"left {level}", f"right {level}", r[level], r[level]))
        pad, pillow = self.person.posture.knee_pad, self.person.posture.pillow
        flesh += [("pillow", "head", "head", r["head"] + pillow, r["head"] + pillow)] if pillow else []
        limbs = [
            ("rib", "blade", "chest", r["blade"], r["chest"]),
            ("flank", "chest", "waist", r["chest"], r["waist"]),
            ("loin", "waist", "hip", r["waist"], r["hip"]),
            ("thigh", "hip", "knee", min(r["thigh"], r["hip"]), r["knee"]),
            ("calf", "knee", "calf", r["knee"], r["calf"]),
            ("shank", "calf", "ankle", r["calf"], r["ankle"]),
            ("upper arm", "shoulder", "elbow", r["arm"], r["arm"]),
        ]
        limbs += [] if self.folded else [("forearm", "elbow", "hand", r["arm"] * 0.9, r["hand"])]
        limbs += [("knee pad", "knee", "knee", r["knee"] + pad, r["knee"] + pad)] if pad else []
        for side in ("left", "right"):
            flesh += [(f"{side} {name}", f"{side} {a}", f"{side} {b}", ra, rb) for name, a, b, ra, rb in limbs]
        # the arm underneath lies before the body, limp: it props nobody up
        return [part for part in flesh if not (self.on_side and part[0] == "right upper arm")]

    def _share_masses(self) -> FloatArray:
        """Return the mass at every node, kg; each segment's centre of mass is kept along the body."""
        masses = np.zeros(len(self.names))
        masses[self.names.index("head")] = self.segments["head and neck"].mass
        for side in ("left", "right"):
            masses[self.names.index(f"{side} ankle")] = self.segments["feet"].mass / 2
        for name, (upper, lower) in _CARRIERS.items():
            self._share(masses, self.segments[name], upper, lower)
        for name in ("forearms", "hands"):
            if self.on_side:
                for node in ("left elbow", "right shoulder"):
                    masses[self.names.index(node)] += self.segments[name].mass / 2
                continue
            self._share(masses, self.segments[name], "elbow", "waist" if self.folded else "hand")
        return masses

    def _share(self, masses: FloatArray, segment: Segment, upper: str, lower: str) -> None:
        """Add a segment's mass to the nodes of two levels."""
        start, end = self.along[upper], self.along[lower]
        share = (segment.start + segment.centre * (segment.end - segment.start) - start) / (end - start)
        if self.folded and segment.name in ("forearms", "hands"):
            share = 0.5
        for level, part in ((upper, 1 - share), (lower, share)):
            for side in ("left", "right"):
                masses[self.names.index(f"{side} {level}")] += segment.mass * part / 2
