"""Random designs that a maker might draw: every size free within what is made, for a sleeper who fits in."""

from random import Random

from tautlay.hammock import Sex, find_percentile

CLOTHS = (
    "ripstop nylon 37 g/m2", "ripstop nylon 54 g/m2", "ripstop nylon 64 g/m2", "coated ripstop nylon 45 g/m2",
    "twill nylon 54 g/m2", "plain nylon 76 g/m2",
)  # fmt: skip
CORDS = ("12-strand UHMWPE 2 mm", "12-strand UHMWPE 2.5 mm")
GRAINS = (0, 0, 0, 90, 10, 30, 45, -45)  # deg
SHAPES = ("parabola", "circle", "catenary")
ROOM = (0.20, 0.50)  # m, between bars and both ends of the sleeper together


def draw_design(draw: Random) -> str:
    """Return the text of a design."""
    sex, percentile = draw.choice(list(Sex)), draw.uniform(2, 98)
    stature, mass = find_percentile(sex, percentile)
    room = draw.uniform(*ROOM)
    length = stature + room
    head, taper = draw.uniform(1.05, 1.45), draw.uniform(0.85, 1.05)
    spread = draw.uniform(0.62, 0.85)  # of the cloth's width
    foot = head * taper
    legs = [draw.uniform(0.5, 1.0) for _ in range(2)]
    height, unlike = draw.uniform(1.5, 2.0), draw.uniform(-0.25, 0.25)
    attachment = draw.choice(("sewn", "sewn", "free", "locked"))
    hang = draw.choice((f'hang_angle = "{draw.uniform(22, 38):.1f} deg"', ""))
    side, arms = draw.choice(("back", "back", "side")), draw.choice(("sides", "folded"))
    return f"""[design]
name = "Random"
[body]
length = "{length:.3f} m"
head_width = "{head:.3f} m"
foot_width = "{foot:.3f} m"
fabric = "{draw.choice(CLOTHS)}"
layers = {draw.choice((1, 1, 1, 2))}
grain = "{draw.choice(GRAINS)} deg"
[body.arc]
depth = "{draw.uniform(0.08, 0.22):.3f} m"
shape = "{draw.choice(SHAPES)}"
[channel]
cord = "{draw.choice(CORDS)}"
attachment = "{attachment}"
{f'lock_length = "{draw.uniform(0.2, 0.5):.2f} m"' if attachment == "locked" else ""}
[head_bar]
length = "{head * spread:.3f} m"
section = "7075-T6 16 x 1 mm"
[foot_bar]
length = "{foot * spread * draw.uniform(0.85, 1.05):.3f} m"
section = "7075-T6 16 x 1 mm"
[suspension]
leg = "{draw.choice(CORDS)}"
head_leg_length = "{legs[0]:.2f} m"
foot_leg_length = "{legs[1]:.2f} m"
line = "polyester 1 in, 25 g/m"
line_length = "{draw.uniform(0.5, 1.2):.2f} m"
head_strap_height = "{height:.2f} m"
foot_strap_height = "{height + unlike:.2f} m"
{hang or 'hang_angle = "30 deg"'}
[person]
stature = "{stature:.3f} m"
mass = "{mass:.1f} kg"
sex = "{sex}"
head_from_bar = "{room * draw.uniform(0.35, 0.65):.3f} m"
lie = "{side}"
arms = "{arms}"
offset = "{draw.uniform(0, 5):.1f} cm"
[load]
case = "{draw.choice(("distributed", "lying", "lying"))}"
[mesh]
size = "12 cm"
"""
