"""What a valid form of a design file asks for: loads, people, limits."""

from collections.abc import Iterator

from ...hammock import GeometryIssue
from ...hammock.person import Sex
from ...materials import make_sentence
from ..judging.verdict.limit import LIMITED, USUAL_LIMITS, Limit, Side
from ..judging.verdict.terms import JudgeTerms, NamedPerson
from .hammock import build_person
from .person import PersonTable
from .schema import DesignForm
from .toml_table import TomlTable

_NOUNS = {Sex.MALE: "man", Sex.FEMALE: "woman"}


def build_terms(form: DesignForm) -> JudgeTerms:
    """Return what a design has to stand.

    Parameters
    ----------
    form : DesignForm
        Without conflicts.

    Returns
    -------
    JudgeTerms
        A limit of the maker replaces the usual one to the same side of the same value.
    """
    usual = {(limit.key, limit.side): limit for limit in USUAL_LIMITS}
    limits = usual | _read_limits("least", form.judge.least) | _read_limits("most", form.judge.most)
    people, names = form.people, _name_people(form.people)
    named = tuple(NamedPerson(name, build_person(each)) for name, each in zip(names, people, strict=True))
    return JudgeTerms(named, tuple(form.judge.loads), tuple(limits.values()))


def find_limit_issues(terms: JudgeTerms) -> Iterator[GeometryIssue]:
    """Yield limits to both sides of a value between which nothing is left."""
    most = {limit.key: limit for limit in terms.limits if limit.side == "most"}
    for least in terms.limits:
        other = most.get(least.key)
        if least.side == "least" and other is not None and least.value > other.value:
            yield GeometryIssue(
                make_sentence(
                    f"The {{title}} is to be at least {{least:{least.dimension}}} and at most "
                    f"{{most:{least.dimension}}}: no hammock can meet both. Change one.",
                    title=least.title, least=least.value, most=other.value,
                ),
                (f"judge.most.{least.key}", f"judge.least.{least.key}"),
            )  # fmt: skip


def _read_limits(side: Side, bounds: TomlTable) -> dict[tuple[str, Side], Limit]:
    """Return the limits to one side."""
    given = ((each.key, getattr(bounds, each.key)) for each in LIMITED)
    return {(key, side): Limit(key, side, value) for key, value in given if value is not None}


def _name_people(people: list[PersonTable]) -> list[str]:
    """Return a name for each person: nothing for the only one, and what tells each of several from the others."""
    if len(people) == 1:
        return [people[0].name or ""]
    names = list[str]()
    for number, each in enumerate(people, 1):
        known = each.name or (f"{_NOUNS[each.who[0]]}, {each.who[1]:g} %" if each.who else "")
        names.append(known if known and known not in names else f"person {number}")
    return names
