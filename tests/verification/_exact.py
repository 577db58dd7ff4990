r"""Exact solutions, computed by scipy and without the solver, that the verification tests compare with.

Elastic catenary, with the weight w per unstretched length, after H. M. Irvine, Cable Structures (1981),
chapter 1 (formulae from memory, checked by the tabulated cases):

.. math::

    x(s) = \frac{Hs}{EA} + \frac Hw\left[\operatorname{asinh}\frac VH-\operatorname{asinh}\frac{V-ws}H\right],
    \quad
    d(s) = \frac s{EA}\left(V-\frac{ws}2\right)+\frac1w\left[\sqrt{H^2+V^2}-\sqrt{H^2+(V-ws)^2}\right]

with s the unstretched length from the first support, d the drop below it, H the horizontal component of
the tension and V its vertical component at the first support.
"""

from dataclasses import dataclass

import numpy as np
from scipy.integrate import quad
from scipy.optimize import brentq, minimize_scalar, root


@dataclass(frozen=True)
class HangingCable:
    """Elastic catenary from the origin; w N/m of unstretched length, lengths m, forces N."""

    span: float
    drop: float
    length: float
    weight: float
    ea: float
    H: float
    V: float

    def place(self, s):
        """Return x and the drop below the first support of the point at unstretched length s."""
        H, V, w = self.H, self.V, self.weight
        low = V - w * s
        x = H * s / self.ea + H / w * (np.arcsinh(V / H) - np.arcsinh(low / H))
        d = s / self.ea * (V - w * s / 2) + (np.hypot(H, V) - np.hypot(H, low)) / w
        return x, d

    def tension(self, s):
        """Return the tension at unstretched length s."""
        return np.hypot(self.H, self.V - self.weight * s)

    def sag(self):
        """Return the largest distance below the chord, measured vertically, and its x."""

        def above(s):
            x, d = self.place(s)
            return -(d - self.drop * x / self.span)

        best = minimize_scalar(above, bounds=(0, self.length), method="bounded", options={"xatol": 1e-12})
        return -best.fun, self.place(best.x)[0]

    def stretched_length(self):
        """Return the length under tension."""
        return quad(lambda s: 1 + self.tension(s) / self.ea, 0, self.length)[0]


def hang_cable(span, drop, length, weight, ea=np.inf):
    """Return the elastic catenary with its second support ``drop`` below the first."""

    def miss(unknown):
        cable = HangingCable(span, drop, length, weight, ea, float(np.exp(unknown[0])), float(unknown[1]))
        x, d = cable.place(length)
        return [(x - span) / span, (d - drop) / span]

    for first in (1.0, 0.1, 10.0, 0.01, 100.0):
        found = root(miss, [np.log(first * weight * length), weight * length / 2], tol=1e-14)
        if np.abs(miss(found.x)).max() < 1e-12:
            return HangingCable(span, drop, length, weight, ea, float(np.exp(found.x[0])), float(found.x[1]))
    raise RuntimeError("no catenary found")


def load_catenary(first_length, second_length, span, weight, ea, force):
    """Return H, V at the first support, and place (x, drop) of the node that carries ``force``.

    Two catenaries in series between level supports, ``force`` N down where they meet.
    """

    def pieces(unknown):
        H, V = unknown
        first = HangingCable(span, 0, first_length, weight, ea, H, V)
        second = HangingCable(span, 0, second_length, weight, ea, H, V - weight * first_length - force)
        return first, second

    def miss(unknown):
        first, second = pieces(unknown)
        (x1, d1), (x2, d2) = first.place(first_length), second.place(second_length)
        return [(x1 + x2 - span) / span, (d1 + d2) / span]

    total = weight * (first_length + second_length) + force
    found = root(miss, [2 * total, total / 2], tol=1e-14)
    if np.abs(miss(found.x)).max() > 1e-12:
        raise RuntimeError("no equilibrium of the loaded catenary found")
    H, V = found.x
    return H, V, pieces(found.x)[0].place(first_length)


def stretch_parabola(span, load, length, ea):
    """Return the horizontal tension of an elastic cable under ``load`` N per horizontal metre, level supports."""
    return brentq(lambda H: parabola_length(span, load, H, ea, -span / 2, span / 2) - length, 1e-3, 1e7, xtol=1e-12)


def parabola_length(span, load, H, ea, start, end):
    """Return the unstretched length between two x, counted from the middle, of the parabolic cable."""

    def rate(x):
        slope = np.hypot(1, load * x / H)
        return slope / (1 + H * slope / ea)

    return quad(rate, start, end, epsabs=1e-11, epsrel=1e-11)[0]


def hang_ring(span, drop, length, weight, ea=np.inf):
    """Return tension, x and drop of a frictionless ring of ``weight`` N on a weightless rope; unstretched first leg.

    Both legs make the same angle with the level, since the tension is one: 2 T sin a = W, and the legs
    together span ``span`` along cos a.
    """

    def miss(T):
        return 2 * T * np.sqrt(1 - (span / (length * (1 + T / ea))) ** 2) - weight

    # the rope has to be at least as long as the straight way between its ends
    shortest = max(0.0, (np.hypot(span, drop) / length - 1) * ea) if np.isfinite(ea) else 0.0
    T = brentq(miss, max(shortest, 1e-9), 1e3 * weight + 2 * shortest, xtol=1e-13, rtol=1e-15)
    whole = length * (1 + T / ea)
    sine = weight / (2 * T)
    first = (whole + drop / sine) / 2  # the legs differ by drop / sin a
    return T, first * np.sqrt(1 - sine**2), first * sine, first / (1 + T / ea)


def hang_two_spans(span, length, tail, chain, weight, ea):
    """Return the catenary of the first of two spans over a hanging pulley, and how far the pulley sinks.

    A cable of ``length`` runs from the origin over a pulley, hung at ``span`` on a ``chain`` of the same
    make, to a fixed pulley at twice the span and straight on over a chord ``tail``. The spans are mirror
    images, so the cable is shared out evenly.
    """
    sink, pull = 0.0, weight * length
    for _ in range(100):
        cable = hang_cable(span, sink, (length - tail / (1 + pull / ea)) / 2, weight, ea)
        pull = cable.tension(0)  # by symmetry that at the fixed pulley
        on_chain = 2 * (weight * cable.length - cable.V) + weight * chain / 2  # mean force in the chain
        sink = on_chain * chain / ea
    return cable, sink


def balance_net(net, *, pushes=False):
    """Return positions and bar forces of a net of straight bars, slack ones zero unless ``pushes``.

    Damped Newton on the unbalanced force with a dense matrix and analytic derivatives, for small nets.
    """
    a, b = net.segments.T
    free = ~net.fixed

    def bars(x):
        edge = x[b] - x[a]
        length = np.linalg.norm(edge, axis=1)
        N = net.ea * (length - net.rest_length) / net.rest_length
        return edge / length[:, None], length, N if pushes else np.maximum(N, 0.0)

    def unbalanced(x):
        n, _, N = bars(x)
        force = net.forces.copy()
        np.add.at(force, a, N[:, None] * n)
        np.add.at(force, b, -N[:, None] * n)
        return force[free].ravel()

    def stiffness(x):
        n, length, N = bars(x)
        live = net.ea / net.rest_length * ((N > 0) | pushes)
        outer = n[:, :, None] * n[:, None, :]
        block = live[:, None, None] * outer + (N / length)[:, None, None] * (np.eye(3) - outer)
        K = np.zeros((len(x), 3, len(x), 3))
        for i, j, sign in ((a, a, 1), (b, b, 1), (a, b, -1), (b, a, -1)):
            np.add.at(K.transpose(0, 2, 1, 3), (i, j), sign * block)
        return K[free][:, :, free].reshape(3 * free.sum(), -1)

    x = net.positions.copy()
    scale = max(np.linalg.norm(net.forces), 1.0)
    for _ in range(200):
        R = unbalanced(x)
        if np.linalg.norm(R) < 1e-11 * scale:
            break
        step = np.linalg.solve(stiffness(x) + 1e-9 * net.ea * np.eye(len(R)), R).reshape(-1, 3)
        share = 1.0
        while share > 1e-6:
            trial = x.copy()
            trial[free] += share * step
            if np.linalg.norm(unbalanced(trial)) < np.linalg.norm(R):
                break
            share /= 2
        else:
            break  # rounding: nothing lowers the residual any more
        x = trial
    if np.linalg.norm(unbalanced(x)) > 1e-9 * scale:
        raise RuntimeError("no equilibrium of the net found")
    return x, bars(x)[2]
