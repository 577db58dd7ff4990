r"""A person as a jointed frame of rods with round flesh: what presses on the cloth.

The trunk is a ladder of four rungs (shoulders, chest, waist, hips), stiff in its plane. Nodes in front make
rib cage and pelvis stiff bodies, with sinews across the waist between them. Head, arms and legs are single
rods. Masses are those of the segments, shared between the nodes at either side so that every segment's
centre of mass is kept; the heels carry the feet.

Judgements, no source: how round the back is, stiffness of joints, of the waist and of the flesh between arm
and trunk, and that the shoulders are a little thicker than the upper arm.
"""

import itertools
from dataclasses import dataclass

import numpy as np

from ..hammock.arrays import FloatArray, IntegerArray
from ..hammock.body_segments import Segment, list_segments
from ..hammock.body_size import measure_body
from ..hammock.person import Arms, LyingSide, Person
from ..materials.short_repr import write_repr, write_value
from .limb_shape import shape_limb
from .skin import list_carriers

_ROUNDNESS = 0.4  # radius of the back's edge over the depth of the trunk; 0.5 would be a round trunk
_SHOULDER = 1.2  # thickness of the shoulder over that of the upper arm
BONE_EA = 1e5  # N: a limb gives by less than a millimetre
SINEW_EA = 200.0  # N: across the waist, which bends and twists; gives some 50 N m/rad when bending
FLESH_EA = 2e3  # N: between arm and trunk, and between both legs
_NECK, _HIP, _KNEE = 5.0, 15.0, 60.0  # N m/rad

_LEVELS = ("shoulder", "chest", "waist", "hip", "knee", "ankle", "elbow", "hand")
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
    """A person lying flat on the back.

    Parameters
    ----------
    names : tuple of str
        Nodes, such as "left knee".
    places : (n, 3)
        From the crown towards the feet, to the left, up from the bed, m.
    masses : (n,)
        kg.
    bones, sinews, links, touching : (k, 2) int
        Pairs of nodes: stiff rods, soft rods across the waist, flesh that holds arms to the trunk, limbs that
        stop each other.
    gap : (k,)
        Distance at which ``touching`` nodes meet, m.
    joints : (j, 3) int
        Triples of nodes held straight.
    joint_stiffness : (j,)
        N m/rad.
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
    masses: FloatArray
    bones: IntegerArray
    sinews: IntegerArray
    links: IntegerArray
    touching: IntegerArray
    gap: FloatArray
    joints: IntegerArray
    joint_stiffness: FloatArray
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
            f"{len(self.joints)} joints",
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
    (20, 80.0)
    """
    return _Builder(person).build()


class _Builder:
    """Collects nodes and members."""

    def __init__(self, person: Person) -> None:
        self.person = person
        self.size = measure_body(person.sex, person.stature, person.mass)
        self.segments = {segment.name: segment for segment in list_segments(person)}
        self.folded = person.posture.arms is Arms.FOLDED
        self.radius = self._find_radii()
        self.along = self._find_levels()
        self.names: list[str] = []
        self.places: list[tuple[float, float, float]] = []

    def build(self) -> BodyFrame:
        """Return the frame."""
        self._place_nodes()
        bones, joints = self._join_bones(), self._list_joints()
        capsules = self._list_flesh()
        touching: list[tuple[str, ...]] = [(f"left {level}", f"right {level}") for level in ("knee", "ankle")]
        pairs = np.array([[self.names.index(a), self.names.index(b)] for _, a, b, _, _ in capsules])
        return BodyFrame(
            names=tuple(self.names),
            places=np.array(self.places),
            masses=self._share_masses(),
            bones=self._number(bones),
            sinews=self._number(self._list_sinews()),
            links=self._number(self._list_links()),
            touching=self._number(touching),
            gap=np.array([2 * self.radius["knee"], 2 * self.radius["ankle"]]),
            joints=self._number([nodes for nodes, _ in joints]),
            joint_stiffness=np.array([stiffness for _, stiffness in joints]),
            capsules=pairs,
            radii=np.array([[first, second] for *_, first, second in capsules]),
            flesh=tuple(name for name, *_ in capsules),
            carriers=self._number([list_carriers(name) for name, *_ in capsules]),
        )

    def _find_radii(self) -> dict[str, float]:
        """Return the radius of the flesh at every level, m."""
        size = self.size
        thigh, shank = shape_limb(self.segments["thighs"]), shape_limb(self.segments["shanks"])
        arm = shape_limb(self.segments["upper arms"], straight=True)[0]
        return {
            "head": (size["head breadth"] + size["head length"]) / 4,
            "neck": size["head breadth"] / 2.5,
            "shoulder": _SHOULDER * arm,
            "chest": _ROUNDNESS * size["chest depth"],
            "waist": _ROUNDNESS * size["waist depth"],
            "hip": _ROUNDNESS * size["buttock depth"],
            "thigh": thigh[0],
            "knee": (thigh[1] + shank[0]) / 2,
            "ankle": shank[1],
            "arm": arm,
            "elbow": arm,
            "hand": 0.7 * arm,
        }

    def _find_levels(self) -> dict[str, float]:
        """Return the distance of every level from the crown, m."""
        s = self.segments
        head = s["head and neck"]
        return {
            "head": head.start + head.centre * (head.end - head.start),
            "neck": head.end,
            "breast": (s["upper trunk"].end + s["upper arms"].start) / 2,
            "belly": (s["lower trunk"].start + s["lower trunk"].end) / 2,
            "shoulder": s["upper arms"].start,
            "chest": s["upper trunk"].end,
            "waist": s["middle trunk"].end,
            "hip": s["lower trunk"].end,
            "knee": s["thighs"].end,
            "ankle": s["shanks"].end,
            "elbow": s["upper arms"].end,
            "hand": s["hands"].end,
        }

    def _find_offsets(self) -> dict[str, float]:
        """Return the distance of every level's nodes from the middle, m."""
        size, radius = self.size, self.radius
        hips = size["hip breadth"] / 2
        return {
            "shoulder": size["shoulder breadth"] / 2 - radius["shoulder"],
            "chest": max(size["chest breadth"] / 2 - radius["chest"], 0.25 * radius["chest"]),
            "waist": max(size["waist breadth"] / 2 - radius["waist"], 0.25 * radius["waist"]),
            "hip": hips - radius["hip"],
            "knee": max(hips / 2, radius["knee"]),
            "ankle": max(hips / 2, radius["ankle"]),
            "elbow": size["shoulder breadth"] / 2 - radius["arm"],
            "hand": max(hips, size["shoulder breadth"] / 2 - radius["arm"]) + radius["hand"],
        }

    def _place_nodes(self) -> None:
        """Lay head, neck and both sides flat."""
        lift = {
            "head": self.size["head length"] / 2,
            "neck": 1.4 * self.radius["shoulder"],
            "breast": self.size["chest depth"],
            "belly": self.size["buttock depth"],
        }
        self.names += list(lift)
        self.places += [(self.along[name], 0.0, height) for name, height in lift.items()]
        offsets = self._find_offsets()
        for level in _LEVELS:
            if level == "hand" and self.folded:
                continue
            for side, sign in (("left", 1.0), ("right", -1.0)):
                self.names.append(f"{side} {level}")
                self.places.append((self.along[level], sign * offsets[level], self._find_lift(level)))

    def _find_lift(self, level: str) -> float:
        """Return the height of a level's nodes above the bed: flesh touches it but for the elbows of folded arms."""
        raised = level == "elbow" and self.folded
        return self.size["chest depth"] / 2 if raised else self.radius[level]

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
            bones += [("breast", f"{side} {level}") for level in ("shoulder", "chest")]
            bones += [("belly", f"{side} {level}") for level in ("waist", "hip")]
            chain = ["hip", "knee", "ankle"]
            bones += [(f"{side} {a}", f"{side} {b}") for a, b in itertools.pairwise(chain)]
            bones += [(f"{side} shoulder", f"{side} elbow")]
            bones += [] if self.folded else [(f"{side} elbow", f"{side} hand")]
        return bones

    def _list_sinews(self) -> list[tuple[str, ...]]:
        """Return what joins rib cage and pelvis across the waist, front to back."""
        ends = (("breast", "waist"), ("belly", "chest"))
        return [(front, f"{side} {level}") for front, level in ends for side in ("left", "right")]

    def _list_links(self) -> list[tuple[str, ...]]:
        """Return what keeps the arms beside the trunk."""
        links: list[tuple[str, ...]] = []
        for side in ("left", "right"):
            links += [(f"{side} elbow", f"{side} chest"), (f"{side} elbow", f"{side} waist")]
            links += [] if self.folded else [(f"{side} hand", f"{side} hip"), (f"{side} hand", f"{side} waist")]
        return links

    def _list_joints(self) -> list[tuple[tuple[str, ...], float]]:
        """Return triples held straight and their stiffness; both sides share what belongs to the middle."""
        knee = _KNEE if self.person.posture.knee_pad == 0.0 else _KNEE / 12
        chains = (
            (("chest", "neck", "head"), _NECK / 2),
            (("waist", "hip", "knee"), _HIP),
            (("hip", "knee", "ankle"), knee),
        )
        middle = ("neck", "head")
        return [
            (tuple(level if level in middle else f"{side} {level}" for level in chain), stiffness)
            for side in ("left", "right")
            for chain, stiffness in chains
        ]

    def _list_flesh(self) -> list[tuple[str, str, str, float, float]]:
        """Return name, ends and radii of every capsule."""
        r = self.radius
        flesh = [("head", "head", "head", r["head"], r["head"]), ("neck", "neck", "head", r["neck"], r["neck"])]
        for level, name in (("shoulder", "shoulders"), ("chest", "chest"), ("waist", "waist"), ("hip", "hips")):
            flesh.append((name, f"left {level}", f"right {level}", r[level], r[level]))
        pad = self.person.posture.knee_pad
        limbs = [
            ("rib", "shoulder", "chest", r["shoulder"], r["chest"]),
            ("flank", "chest", "waist", r["chest"], r["waist"]),
            ("loin", "waist", "hip", r["waist"], r["hip"]),
            ("thigh", "hip", "knee", min(r["thigh"], r["hip"]), r["knee"]),
            ("shank", "knee", "ankle", r["knee"], r["ankle"]),
            ("upper arm", "shoulder", "elbow", r["arm"], r["arm"]),
        ]
        limbs += [] if self.folded else [("forearm", "elbow", "hand", r["arm"] * 0.9, r["hand"])]
        limbs += [("knee pad", "knee", "knee", r["knee"] + pad, r["knee"] + pad)] if pad else []
        for side in ("left", "right"):
            flesh += [(f"{side} {name}", f"{side} {a}", f"{side} {b}", ra, rb) for name, a, b, ra, rb in limbs]
        under = self.person.posture.lie is LyingSide.SIDE  # that arm lies in front of the body and carries nothing
        return [part for part in flesh if not (under and part[0] in ("right upper arm", "right forearm"))]

    def _share_masses(self) -> FloatArray:
        """Return the mass at every node, kg; each segment's centre of mass is kept along the body."""
        masses = np.zeros(len(self.names))
        masses[self.names.index("head")] = self.segments["head and neck"].mass
        for side in ("left", "right"):
            masses[self.names.index(f"{side} ankle")] = self.segments["feet"].mass / 2
        for name, (upper, lower) in _CARRIERS.items():
            self._share(masses, self.segments[name], upper, lower)
        for name in ("forearms", "hands"):
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
