"""How to measure an input at home. Common practice, no source, but for the mechanics of each test."""

from ....materials import Sentence, make_sentence

SOURCE = "common practice, no source"
_STRIP = 0.05  # m
_WATCH = "Stay out of the line of pull: what breaks whips back."


def _stretch(thread: str) -> Sentence:
    """Return how the stiffness along a thread is measured."""
    return make_sentence(
        "Cut three strips {width:length.2} wide and longer than {marks:length.2} along the {thread}. Mark "
        "{marks:length.2} on each. Hang {little:mass.2}, then {much:mass.2} on them. Measure how much the distance "
        "of the marks grows. Stiffness is the added force per width, divided by the added strain.",
        width=_STRIP, marks=0.5, thread=thread, little=2.0, much=8.0,
    )  # fmt: skip


def _tear(thread: str) -> Sentence:
    """Return how the strength along a thread is measured."""
    return make_sentence(
        "Cut five strips along the {thread}, fray them to {width:length.2} and wind the ends round smooth rods. Pull "
        "with a peak-hold luggage scale until they tear. Strength is the lowest force per width. {watch}",
        thread=thread, width=0.025, watch=_WATCH,
    )  # fmt: skip


def _gauge(what: str) -> Sentence:
    """Return how a size is measured."""
    return make_sentence("Measure the {what} with callipers in five places.", what=what)


_EA = make_sentence(
    "Work the cord or strap in. Hang {little:mass.2}, then {much:mass.2} on {length:length.2} of it. Measure how much "
    "the distance of two marks grows. Stiffness is the added force divided by the added strain.",
    little=10.0, much=50.0, length=5.0,
)  # fmt: skip
_BREAK = make_sentence(
    "Break five pieces with a 10:1 lever and a peak-hold luggage scale. Use strong ends, such as long spliced eyes "
    "round smooth pins. Take the lowest value. {watch}",
    watch=_WATCH,
)
_BEND_BAR = make_sentence(
    "Lay the bar on two supports, hang a weight in the middle and measure how far it sags. The modulus is "
    "F L^3 / (48 I s): force F, distance L of the supports, sag s, second moment of area I."
)
_BREAK_BAR = make_sentence(
    "Hard to measure at home: buy with a certificate. Or crush a spare piece, three diameters long, between hardwood "
    "blocks with a lever. Strength is force over area. Wear goggles."
)
_BUY = make_sentence("Hard to measure at home: buy with a certificate.")

TESTS: dict[str, Sentence] = {
    "fabric.shear": make_sentence(
        "Cut a strip {width:length.2} wide and longer than {marks:length.2} at 45 degrees to the warp. Mark "
        "{marks:length.2} on it. Hang a weight on it that moves the marks 2 to 5 % apart ({weight:mass.2} on light "
        "uncoated cloth). Shear stiffness is the force per width, divided by four times that strain.",
        width=_STRIP, marks=0.5, weight=0.04,
    ),
    "fabric.warp": _stretch("warp"),
    "fabric.weft": _stretch("weft"),
    "fabric.poisson": make_sentence(
        "Hard to measure at home. Stretch a strip along the warp by 5 % and measure with callipers by how many per "
        "cent it narrows. The Poisson ratio is that over 5 %."
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
        "Lay a loop of thread round two smooth hooks and pull with a spring scale until it breaks. Do this ten times. "
        "Take half of the lowest value, since a loop has two strands."
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
        "Make five ends like yours. Break them and five pieces of the plain cord or strap with a 10:1 lever and a "
        "luggage scale. Give the ratio of the two lowest values as keeps of that end. {watch}",
        watch=_WATCH,
    ),
    "bend": make_sentence(
        "Break five pieces over a pin as thick as your cord bends over, and five over a pin of eight cord diameters. "
        "The ratio is the share kept in the bend. {watch}",
        watch=_WATCH,
    ),
    "seam": make_sentence(
        "Sew the channel's fold on five strips {width:length.2} wide. Tear them across the seam, and five plain "
        "strips, with a luggage scale. Give the ratio of the two lowest values as seam_efficiency in [channel.fold].",
        width=0.025,
    ),
    "stitch": make_sentence(
        "Sew two strong strips together with {width:length.2} of your stitches. Pull them apart with a luggage scale. "
        "Divide by the number of stitches and the breaking load of the thread.",
        width=0.025,
    ),
    "lock": make_sentence(
        "Sew {width:length.2} of cord into a strong strip with your anchor stitching. Pull it out lengthwise with a "
        "luggage scale and compare with a seam of as many stitches.",
        width=0.025,
    ),
    "wet": make_sentence("Tear five strips soaked in water and five dry ones with a luggage scale."),
    "age": make_sentence("Tear strips of cloth that was outdoors as long as yours is meant to be, and new ones."),
}  # fmt: skip
