"""How a number of a material could be measured at home.

Common practice, no source, but for the mechanics of each test.
"""

from .sentence import Sentence, make_sentence

_STRIP = 0.05  # m
WATCH = "Stay out of the line of pull: what breaks whips back."


def measure_stretch(thread: str) -> Sentence:
    """Return how the stiffness along a thread is measured."""
    return make_sentence(
        "Cut three strips {width:length.2} wide and longer than {marks:length.2} along the {thread}, mark "
        "{marks:length.2} on each, hang {little:mass.2} and then {much:mass.2} on them and measure how much farther "
        "apart the marks get. Stiffness is the added pull over the width, over the added stretch as a share of the "
        "length.",
        width=_STRIP, marks=0.5, thread=thread, little=2.0, much=8.0,
    )  # fmt: skip


def measure_tear(thread: str) -> Sentence:
    """Return how the strength along a thread is measured."""
    return make_sentence(
        "Cut five strips along the {thread}, fray them to {width:length.2}, wind the ends round smooth rods and pull "
        "with a luggage scale that keeps its highest value until they tear; take the least, over the width. {watch}",
        thread=thread, width=0.025, watch=WATCH,
    )  # fmt: skip


def measure_size(what: str) -> Sentence:
    """Return how a size is measured."""
    return make_sentence("Measure the {what} with callipers in five places.", what=what)


def stretch_line() -> Sentence:
    """Return how the stiffness of a cord or strap is measured."""
    return make_sentence(
        "Work the cord or strap in, hang {little:mass.2} and then {much:mass.2} on {length:length.2} of it and measure "
        "how much farther apart two marks get. Stiffness is the added pull over the added stretch as a share of the "
        "length.",
        little=10.0, much=50.0, length=5.0,
    )  # fmt: skip


def break_line() -> Sentence:
    """Return how the breaking load of a cord or strap is measured."""
    return make_sentence(
        "Break five pieces with ends that hold, such as long spliced eyes round smooth pins, with a lever of 10 to 1 "
        "and a luggage scale that keeps its highest value; take the least. {watch}",
        watch=WATCH,
    )


def bend_bar() -> Sentence:
    """Return how the modulus of a bar is measured."""
    return make_sentence(
        "Lay the bar on two supports, hang a weight in the middle and measure how far it sags. With the pull F, the "
        "length L between the supports, the sag s and the second moment of area I, the modulus is F L^3 / (48 I s)."
    )


def break_bar() -> Sentence:
    """Return how the strength of a bar is measured."""
    return make_sentence(
        "Hard to measure at home: buy with a certificate, or press a short spare piece, three diameters long, between "
        "hardwood blocks with a lever until it gives; strength is the force over the area. Wear goggles."
    )


def buy_certified() -> Sentence:
    """Return what to do where nothing can be measured."""
    return make_sentence("Hard to measure at home: buy with a certificate.")


def pull_bias_strip() -> Sentence:
    """Return how the shear stiffness of cloth is measured."""
    return make_sentence(
        "Cut a strip {width:length.2} wide and longer than {marks:length.2} at 45 degrees to the warp, mark "
        "{marks:length.2} on it, hang up one end and on the other a weight that moves the marks 2 to 5 % farther "
        "apart ({weight:mass.2} on light uncoated cloth). Shear stiffness is the pull over the width, over four "
        "times that stretch as a share of the length.",
        width=_STRIP, marks=0.5, weight=0.04,
    )  # fmt: skip


def measure_narrowing() -> Sentence:
    """Return how the Poisson ratio of cloth is measured."""
    return make_sentence(
        "Hard to measure at home: pull a strip along the warp until it is 5 % longer and measure with callipers by "
        "what share it gets narrower; the Poisson ratio is that share over 5 %."
    )


def break_loop() -> Sentence:
    """Return how the breaking load of a thread is measured."""
    return make_sentence(
        "Lay a loop of thread round two smooth hooks and pull with a spring scale until it breaks, ten times; take "
        "half of the least, since a loop has two strands."
    )
