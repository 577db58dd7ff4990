"""How an input could be measured at home. Common practice, no source, but for the mechanics of each test."""

from ....materials import Sentence, make_sentence

SOURCE = "common practice, no source"
_STRIP = 0.05  # m
_WATCH = "Stay out of the line of pull: what breaks whips back."


def _stretch(thread: str) -> Sentence:
    """Return how the stiffness along a thread is measured."""
    return make_sentence(
        "Cut three strips {width:length.2} wide and longer than {marks:length.2} along the {thread}, mark "
        "{marks:length.2} on each, hang {little:mass.2} and then {much:mass.2} on them and measure how much farther "
        "apart the marks get. Stiffness is the added pull over the width, over the added stretch as a share of the "
        "length.",
        width=_STRIP, marks=0.5, thread=thread, little=2.0, much=8.0,
    )  # fmt: skip


def _tear(thread: str) -> Sentence:
    """Return how the strength along a thread is measured."""
    return make_sentence(
        "Cut five strips along the {thread}, fray them to {width:length.2}, wind the ends round smooth rods and pull "
        "with a luggage scale that keeps its highest value until they tear; take the least, over the width. {watch}",
        thread=thread, width=0.025, watch=_WATCH,
    )  # fmt: skip


def _gauge(what: str) -> Sentence:
    """Return how a size is measured."""
    return make_sentence("Measure the {what} with callipers in five places.", what=what)


_EA = make_sentence(
    "Work the cord or strap in, hang {little:mass.2} and then {much:mass.2} on {length:length.2} of it and measure "
    "how much farther apart two marks get. Stiffness is the added pull over the added stretch as a share of the "
    "length.",
    little=10.0, much=50.0, length=5.0,
)  # fmt: skip
_BREAK = make_sentence(
    "Break five pieces with ends that hold, such as long spliced eyes round smooth pins, with a lever of 10 to 1 and "
    "a luggage scale that keeps its highest value; take the least. {watch}",
    watch=_WATCH,
)
_BEND_BAR = make_sentence(
    "Lay the bar on two supports, hang a weight in the middle and measure how far it sags. With the pull F, the "
    "length L between the supports, the sag s and the second moment of area I, the modulus is F L^3 / (48 I s)."
)
_BREAK_BAR = make_sentence(
    "Hard to measure at home: buy with a certificate, or press a short spare piece, three diameters long, between "
    "hardwood blocks with a lever until it gives; strength is the force over the area. Wear goggles."
)
_BUY = make_sentence("Hard to measure at home: buy with a certificate.")

TESTS: dict[str, Sentence] = {
    "fabric.shear": make_sentence(
        "Cut a strip {width:length.2} wide and longer than {marks:length.2} at 45 degrees to the warp, mark "
        "{marks:length.2} on it, hang up one end and on the other a weight that moves the marks 2 to 5 % farther "
        "apart ({weight:mass.2} on light uncoated cloth). Shear stiffness is the pull over the width, over four "
        "times that stretch as a share of the length.",
        width=_STRIP, marks=0.5, weight=0.04,
    ),
    "fabric.warp": _stretch("warp"),
    "fabric.weft": _stretch("weft"),
    "fabric.poisson": make_sentence(
        "Hard to measure at home: pull a strip along the warp until it is 5 % longer and measure with callipers by "
        "what share it gets narrower; the Poisson ratio is that share over 5 %."
    ),
    "fabric.strength_warp": _tear("warp"),
    "fabric.strength_weft": _tear("weft"),
    "cord.ea": _EA,
    "webbing.ea": _EA,
    "cord.breaking_load": _BREAK,
    "webbing.breaking_load": _BREAK,
    "cord.diameter": _gauge("pulled cord"),
    "webbing.width": _gauge("width"),
    "webbing.thickness": _gauge("thickness"),
    "thread.breaking_load": make_sentence(
        "Lay a loop of thread round two smooth hooks and pull with a spring scale until it breaks, ten times; take "
        "half of the least, since a loop has two strands."
    ),
    "tube.outer_diameter": _gauge("outer diameter"),
    "tube.wall": _gauge("wall"),
    "tube.modulus": _BEND_BAR,
    "tube.yield_strength": _BREAK_BAR,
    "rod.diameter": _gauge("diameter"),
    "rod.modulus": _BEND_BAR,
    "rod.compression_strength": _BREAK_BAR,
    "plate.thickness": _gauge("thickness"),
    "plate.tensile_strength": _BUY,
    "plate.shear_strength": _BUY,
    "plate.bearing_strength": _BUY,
    "end": make_sentence(
        "Make five ends just as yours, break them and five pieces of the plain cord or strap with a lever of 10 to 1 "
        "and a luggage scale, and write the ratio of the least two as keeps of that end. {watch}",
        watch=_WATCH,
    ),
    "bend": make_sentence(
        "Break five pieces over a pin as thick as what your cord is bent over, and five over one of eight diameters "
        "of the cord; the ratio is what the bend keeps. {watch}",
        watch=_WATCH,
    ),
    "seam": make_sentence(
        "Sew the channel's fold on five strips {width:length.2} wide, tear them across the seam and five plain "
        "strips with a luggage scale, and write the ratio of the least two as seam_efficiency in [channel.fold].",
        width=0.025,
    ),
    "stitch": make_sentence(
        "Sew two strong strips to each other with {width:length.2} of your stitches, pull them apart with a luggage "
        "scale and divide by the number of stitches and the breaking load of the thread.",
        width=0.025,
    ),
    "lock": make_sentence(
        "Sew {width:length.2} of cord into a strong strip as yours is locked, pull it out along itself with a "
        "luggage scale and compare with a seam of as many stitches.",
        width=0.025,
    ),
    "wet": make_sentence("Tear five strips soaked in water and five dry ones with a luggage scale."),
    "age": make_sentence("Tear strips of cloth that has lain out as long as yours is meant to, beside new ones."),
}  # fmt: skip
