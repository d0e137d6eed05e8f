"""The rows of own.json that come from SciPy and NumPy, computed apart from the code: python own.py"""

import numpy as np
from scipy import integrate, linalg, optimize

PI, G = np.pi, 9.80665


def modified_sine(t):
    k = 4 * PI**2 / (4 + PI)
    return k * np.sin(4 * PI * t) if t < 1 / 8 or t > 7 / 8 else k * np.sin(PI / 3 + 4 * PI * t / 3)


def modified_trapezoid(t):
    k = 8 * PI / (2 + PI)
    if t > 0.5:
        return -modified_trapezoid(1 - t)
    return k * np.sin(4 * PI * t) if t < 1 / 8 else k if t < 3 / 8 else k * np.cos(4 * PI * (t - 3 / 8))


LAWS = {  # own-rms-laws: accelerations of the unit stroke
    "polynomial_345": lambda t: 60 * t - 180 * t**2 + 120 * t**3,
    "polynomial_4567": lambda t: 420 * t**2 - 1680 * t**3 + 2100 * t**4 - 840 * t**5,
    "modified_sine": modified_sine,
    "modified_trapezoid": modified_trapezoid,
    "harmonic": lambda t: PI**2 / 2 * np.cos(PI * t),
}
for name, a in LAWS.items():
    at = [0.125, 0.375, 0.5, 0.625, 0.875]
    square = integrate.quad(lambda t: a(t) ** 2, 0, 1, points=at, epsabs=1e-13, epsrel=1e-13)[0]
    stroke = integrate.quad(lambda t: (1 - t) * a(t), 0, 1, points=at, epsabs=1e-13)[0]
    print(f"own-rms-laws {name} {square**0.5:.9f} (stroke {stroke:.9f})")


def beam(d, length, fixed, n=60, modulus=205e9, density=7850):
    """Whirling speed, rpm, and buckling load, N: Hermite elements with consistent mass and geometric stiffness."""
    h, size = length / n, 2 * (n + 1)
    area, inertia = PI * d**2 / 4, PI * d**4 / 64
    stiff, mass, geometric = (np.zeros((size, size)) for _ in range(3))
    k = modulus * inertia / h**3 * np.array(
        [[12, 6 * h, -12, 6 * h], [6 * h, 4 * h * h, -6 * h, 2 * h * h],
         [-12, -6 * h, 12, -6 * h], [6 * h, 2 * h * h, -6 * h, 4 * h * h]])
    m = density * area * h / 420 * np.array(
        [[156, 22 * h, 54, -13 * h], [22 * h, 4 * h * h, 13 * h, -3 * h * h],
         [54, 13 * h, 156, -22 * h], [-13 * h, -3 * h * h, -22 * h, 4 * h * h]])
    g = 1 / (30 * h) * np.array(
        [[36, 3 * h, -36, 3 * h], [3 * h, 4 * h * h, -3 * h, -h * h],
         [-36, -3 * h, 36, -3 * h], [3 * h, -h * h, -3 * h, 4 * h * h]])
    for element in range(n):
        s = slice(2 * element, 2 * element + 4)
        stiff[s, s] += k
        mass[s, s] += m
        geometric[s, s] += g
    free = np.ix_(*[[i for i in range(size) if i not in fixed(n)]] * 2)
    omega = linalg.eigh(stiff[free], mass[free], eigvals_only=True)[0] ** 0.5
    load = 1 / linalg.eigh(geometric[free], stiff[free], eigvals_only=True)[-1]
    return omega * 30 / PI, load


for ends, fixed in {  # own-column-elements, own-whirling-elements
    "fixed-pinned": lambda n: {0, 1, 2 * n},
    "pinned": lambda n: {0, 2 * n},
    "fixed-free": lambda n: {0, 1},
    "fixed": lambda n: {0, 1, 2 * n, 2 * n + 1},
}.items():
    speed, load = beam(0.025, 1.3, fixed)
    print(f"own-whirling-elements, own-column-elements {ends} {speed:.6f} rpm {load:.6f} N")

cube = lambda load, end: (integrate.quad(lambda x: load(x) ** 3, 0, end)[0] / end) ** (1 / 3)
print(f"own-swinging-load {cube(np.sin, PI):.9f} {cube(lambda x: (1 - np.cos(x)) / 2, 2 * PI):.9f}")


def blow_down(p, c=5e-9, b=0.35, outside=1e5):
    r = outside / p
    part = 1 if r <= b else (1 - ((r - b) / (1 - b)) ** 2) ** 0.5
    return 0.002 / (287.05 * 293.15 * c * p * 1.185 * part)


print("own-blow-down", integrate.quad(blow_down, 1.2e5, 7e5, points=[1e5 / 0.35], epsabs=1e-12, epsrel=1e-12)[0])

nozzle = lambda r: np.sqrt(r ** (2 / 1.4) - r ** (2.4 / 1.4))
critical = (2 / 2.4) ** 3.5
print("own-isentropic-parts", critical, [round(nozzle(r) / nozzle(critical), 5) for r in (0.6, 0.7, 0.8, 0.9, 0.95)])


def worst(weight, k=2, a=0.8, sine=np.sin(np.radians(60))):
    pairs = ((80, 40), (120, 60))
    return max(
        abs((m + k * k * weight) * acc + m * G * sine - k * weight * G + way * friction)
        for m, friction in pairs for way in (1, -1) for acc in (a, -a))


found = optimize.minimize_scalar(worst, bounds=(0, 200), method="bounded", options={"xatol": 1e-11})
print("own-best-counterweight", found.x)

corners = np.array([(0.225, 0.16), (0.225, -0.16), (-0.225, 0.16), (-0.225, -0.16)])
plane = np.column_stack([np.ones(4), corners])
print("own-plate", plane @ np.linalg.solve(plane.T @ plane, 1750 * np.array([1, 0.07, -0.11])))
