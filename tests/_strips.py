"""Strips of cloth and a cord that somebody pulled at home, invented, as they stand in a file of measurements."""

STRIPS = """
[[strip]]
thread = "warp"
width = "5 cm"
marks = "50 cm"
pull = "60 N"
longer = "20 mm"

[[strip]]
thread = "bias"
width = "5 cm"
marks = "50 cm"
pull = "0.4 N"
longer = "25 mm"

[[cord]]
material = "polyester 1 in, 25 g/m"
marks = "5 m"
pull = "400 N"
longer = "50 mm"
"""
