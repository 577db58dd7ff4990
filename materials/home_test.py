"""How a number of a material could be measured at home.

Common practice, no source, but for the mechanics of each test.
"""

from .sentence import Sentence, make_sentence

_STRIP = 0.05  # m
WATCH = "Stay out of the line of pull: what breaks whips back."


def measure_stretch(thread: str) -> Sentence:
    """Return how the stiffness along a thread is measured."""
    return make_sentence(
        "Cut three strips {width:length.2} wide and longer than {marks:length.2} along the {thread}. Mark "
        "{marks:length.2} on each. Hang {little:mass.2}, then {much:mass.2} on them. Measure how much the distance "
        "of the marks grows. Stiffness is the added force per width, divided by the added strain.",
        width=_STRIP, marks=0.5, thread=thread, little=2.0, much=8.0,
    )  # fmt: skip


def measure_tear(thread: str) -> Sentence:
    """Return how the strength along a thread is measured."""
    return make_sentence(
        "Cut five strips along the {thread}, fray them to {width:length.2} and wind the ends round smooth rods. Pull "
        "with a peak-hold luggage scale until they tear. Strength is the lowest force per width. {watch}",
        thread=thread, width=0.025, watch=WATCH,
    )  # fmt: skip


def measure_size(what: str) -> Sentence:
    """Return how a size is measured."""
    return make_sentence("Measure the {what} with callipers in five places.", what=what)


def stretch_line() -> Sentence:
    """Return how the stiffness of a cord or strap is measured."""
    return make_sentence(
        "Work the cord or strap in. Hang {little:mass.2}, then {much:mass.2} on {length:length.2} of it. Measure how "
        "much the distance of two marks grows. Stiffness is the added force divided by the added strain.",
        little=10.0, much=50.0, length=5.0,
    )  # fmt: skip


def break_line() -> Sentence:
    """Return how the breaking load of a cord or strap is measured."""
    return make_sentence(
        "Break five pieces with a 10:1 lever and a peak-hold luggage scale. Use strong ends, such as long spliced eyes "
        "round smooth pins. Take the lowest value. {watch}",
        watch=WATCH,
    )


def bend_bar() -> Sentence:
    """Return how the modulus of a bar is measured."""
    return make_sentence(
        "Lay the bar on two supports, hang a weight in the middle and measure how far it sags. The modulus is "
        "F L^3 / (48 I s): force F, distance L of the supports, sag s, second moment of area I."
    )


def break_bar() -> Sentence:
    """Return how the strength of a bar is measured."""
    return make_sentence(
        "Hard to measure at home: buy with a certificate. Or crush a spare piece, three diameters long, between "
        "hardwood blocks with a lever. Strength is force over area. Wear goggles."
    )


def buy_certified() -> Sentence:
    """Return what to do where nothing can be measured."""
    return make_sentence("Hard to measure at home: buy with a certificate.")


def pull_bias_strip() -> Sentence:
    """Return how the shear stiffness of cloth is measured."""
    return make_sentence(
        "Cut a strip {width:length.2} wide and longer than {marks:length.2} at 45 degrees to the warp. Mark "
        "{marks:length.2} on it. Hang a weight on it that moves the marks 2 to 5 % apart ({weight:mass.2} on light "
        "uncoated cloth). Shear stiffness is the force per width, divided by four times that strain.",
        width=_STRIP, marks=0.5, weight=0.04,
    )  # fmt: skip


def measure_narrowing() -> Sentence:
    """Return how the Poisson ratio of cloth is measured."""
    return make_sentence(
        "Hard to measure at home. Stretch a strip along the warp by 5 % and measure with callipers by how many per "
        "cent it narrows. The Poisson ratio is that over 5 %."
    )


def break_loop() -> Sentence:
    """Return how the breaking load of a thread is measured."""
    return make_sentence(
        "Lay a loop of thread round two smooth hooks and pull with a spring scale until it breaks. Do this ten times. "
        "Take half of the lowest value, since a loop has two strands."
    )


def watch_creep() -> Sentence:
    """Return how the creep of a fibre is measured, for how long it is known, and what warmth does to it."""
    return make_sentence(
        "Hang {mass:mass.2} on {length:length.2} of a thin cord of it, out of the sun, and measure the distance of two "
        "marks after 1, 10, 100 and 1000 minutes. Creep is what a tenfold time adds to the strain, over the share of "
        "the breaking load that hangs on it. In a warm room and in a cold one it tells what warmth does.",
        mass=20.0, length=5.0,
    )  # fmt: skip


def stretch_wet() -> Sentence:
    """Return how the stiffness of a soaked fibre is measured."""
    return make_sentence(
        "Hang {little:mass.2}, then {much:mass.2} on {length:length.2} of a cord of it, dry and soaked for an hour, "
        "and measure how much the distance of two marks grows. The share is the dry growth over the wet one.",
        little=10.0, much=50.0, length=5.0,
    )  # fmt: skip


def weigh_wet() -> Sentence:
    """Return how the water in a soaked fibre is measured."""
    return make_sentence("Weigh it dry. Soak it for an hour, shake it out and weigh it again.")
