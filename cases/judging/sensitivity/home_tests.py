"""How an input could be measured at home. Common practice, no source, but for the mechanics of each test."""

from ....materials import CATEGORIES, Sentence, list_quantities, make_sentence
from ....materials.home_test import WATCH

SOURCE = "common practice, no source"
TESTS: dict[str, Sentence] = {
    **{
        f"{category}.{item.name}": item.metadata["test"]()
        for category, kind in CATEGORIES.items()
        for item in list_quantities(kind)
        if item.metadata["test"] is not None
    },
    "end": make_sentence(
        "Make five ends like yours. Break them and five pieces of the plain cord or strap with a 10:1 lever and a "
        "luggage scale. Give the ratio of the two lowest values as keeps of that end. {watch}",
        watch=WATCH,
    ),
    "bend": make_sentence(
        "Break five pieces over a pin as thick as your cord bends over, and five over a pin of eight cord diameters. "
        "The ratio is the share kept in the bend. {watch}",
        watch=WATCH,
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
        "Sew {width:length.2} of cord into a strong strip, stitching through the cord as you do. Pull it out "
        "lengthwise with a luggage scale and compare with a seam of as many stitches.",
        width=0.025,
    ),
    "wet": make_sentence("Tear five strips soaked in water and five dry ones with a luggage scale."),
    "age": make_sentence("Tear strips of cloth that was outdoors as long as yours is meant to be, and new ones."),
}  # fmt: skip
