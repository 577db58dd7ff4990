"""Units in the wrong place, and what to write instead."""

HINTS: dict[str, dict[str, str]] = {
    "force": {
        **dict.fromkeys(("lb", "lbs", "pound", "pounds"), "lb is a mass, write lbf for a force in pounds"),
        **dict.fromkeys(("kg", "g"), "kg and g are masses, write kgf or N for a force"),
    },
    "mass": {
        "lbf": "lbf is a force, write lb for a mass in pounds",
        "kgf": "kgf is a force, write kg for a mass",
        "N": "N is a force, write kg or lb for a mass",
    },
    "areal_mass": {"oz": "'oz' of a cloth means ounces per square yard, write oz/yd2"},
    "linear_mass": {
        **dict.fromkeys(("D", "d"), "D is not a unit here, write den for denier"),
        "lbf/ft": "lbf is a force, write lb/ft for a mass per length",
        "T": "T is a thread size, write tex",
    },
    **{name: {"lb/in": "lb is a mass, write lbf/in for a force per width"} for name in ("line_load", "line_stiffness")},
    "stress": {"lb/in2": "lb is a mass, write psi"},
    "density": {"lbf/in3": "lbf is a force, write lb/in3"},
}
