#!/usr/bin/env python3
"""The monthly part of an audit sheet computed again from its printed text.

Nothing of the program is used: the text of the sheet, and the formulas of
ISO 13788 (months, surface), DIN 4108-3 annex A (period) as they are told there,
written down here a second time. Every figure found is compared within the
rounding it is printed with.   usage: recompute.py SHEET.txt ...
"""
import math
import re
import sys

MONTHS = 'Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec'.split()
DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
DELTA_0 = 2.0e-10
NUMBER = r'-?\d[\d.]*(?:e[-+]?\d+)?'
CUPS = ('dry', 'wet', 'one', 'curve')
ROWS = tuple('  ' + title for title in (
    'Condensate left', 'Most condensate at one', 'Drying reserve',
    'Surface temperature', 'The same', 'Highest monthly', 'Condensate against'))
NOTHING = 1e-9   # kg/m2: less is rounding


def psat(theta):
    a, b = (17.269, 237.3) if theta >= 0 else (21.875, 265.5)
    return 610.5 * math.exp(a * theta / (b + theta))


def dew_point(p):
    a, b = (17.269, 237.3) if p >= 610.5 else (21.875, 265.5)
    x = math.log(p / 610.5)
    return b * x / (a - x)


class Differs(Exception):
    pass


class Check:
    """Compares printed figures with computed ones."""

    def __init__(self):
        self.count = 0

    def same(self, what, printed, value):
        self.count += 1
        text = str(printed)
        mantissa, _, power = text.partition('e')
        digits = len(mantissa.partition('.')[2]) - int(power or 0)
        # half a unit of the last digit; the inputs have seven digits
        within = 0.5001 * 10.0 ** -digits + 1e-5 * abs(value)
        if not abs(float(text) - value) <= within:
            raise Differs(f'{what}: the sheet says {text}, computed {value:.7g}')

    def true(self, what, fact):
        self.count += 1
        if not fact:
            raise Differs(what)


# ---- the text --------------------------------------------------------------

def parts_of(text):
    parts, lines = {}, []
    for line in text.splitlines():
        head = re.match(r'\d+  (.*?) -+$', line)
        if head:
            lines = parts.setdefault(head[1], [])
        lines.append(line)
    return parts


def part(parts, title):
    for name, lines in parts.items():
        if name.startswith(title):
            return lines
    raise Differs(f'no part "{title}"')


def flat(lines):
    return ' '.join(' '.join(lines).split())


def found(pattern, text, what):
    match = re.search(pattern, text)
    if match is None:
        raise Differs(f'not found: {what}')
    return match


class Slab:
    def __init__(self, words):
        self.number = int(words[0])
        self.d, self.lam, self.R, self.mu_dry, self.mu_wet, self.dry, \
            self.wet = (None if w == '-' else float(w) for w in words[1:8])
        self.takes = words[8]
        self.curve = None


class Section:
    def __init__(self, name, lines, fixed):
        self.name, self.fixed = name, fixed
        self.slabs = []
        for line in lines:
            words = line.split()
            if len(words) >= 10 and re.match(r'\d+$', words[0]) and \
                    words[8] in CUPS:
                self.slabs.append(Slab(words))
        text = flat(lines)
        both = found(rf'Rse = ({NUMBER}), Rsi = ({NUMBER}) m2', text, 'Rse')
        self.rse, self.rsi = float(both[1]), float(both[2])
        for number, points in re.findall(r'sd of No\. (\d+) by RH: (.*? m)\.',
                                         text):
            pairs = re.findall(rf'({NUMBER}) % ({NUMBER}) m', points)
            slab = next(s for s in self.slabs if s.number == int(number))
            slab.dry = slab.wet = 1.0   # until it is found on the curve
            slab.curve = [(float(x) / 100, float(y)) for x, y in pairs]
        self.reserve_at = self.plane(r'Reserve of plane (\S+)\.', text)
        self.leak_at = self.plane(r'stopped at plane (\S+)\.', text)
        self.wet_at = self.plane(r'put at plane (\S+) in', text)
        self.text, self.lines = text, lines

    def plane(self, pattern, text):
        match = re.search(pattern, text)
        return match and self.place(match[1])

    def place(self, word):
        """(slab index, part of its thickness); ends of layers have part 1."""
        number, _, depth = word.partition('+')
        if number == '0':
            return (0, 0.0)
        k = [s.number for s in self.slabs].index(int(number))
        return (k, float(depth) / self.slabs[k].d if depth else 1.0)


# ---- the method -------------------------------------------------------------

def hull(points):
    """Lower convex hull of (s, p, node) in rising s."""
    kept = []
    for s, p, node in points:
        while len(kept) > 1:
            (s0, p0, _), (s1, p1, _) = kept[-2:]
            chord = p0 + (p - p0) * (s1 - s0) / (s - s0)
            if p1 < chord - 1e-9:
                break
            kept.pop()
        kept.append((s, p, node))
    return kept


def on_curve(curve, rh):
    if rh <= curve[0][0]:
        return curve[0][1]
    for (x0, y0), (x1, y1) in zip(curve, curve[1:]):
        if rh <= x1:
            t = (rh - x0) / (x1 - x0)
            return math.exp((1 - t) * math.log(y0) + t * math.log(y1))
    return curve[-1][1]


class Wall:
    """One monthly run of one section."""

    def __init__(self, section, extra=(), strips=True, fixed=None, wets=None):
        self.section = section
        self.fixed = fixed or section.fixed
        self.slab_of, self.share, self.face = [], [], [0]
        cuts_of = [sorted({i / n for i in range(1, n + 1)} |
                          {x for j, x in extra if j == k and 0 < x < 1} |
                          ({0.5} if len(section.slabs) == 1 else set()))
                   for k, s in enumerate(section.slabs)
                   for n in [max(1, math.ceil(s.R / 0.25 - 1e-9))
                             if strips else 1]]
        self.cuts = cuts_of
        for k, cuts in enumerate(cuts_of):
            for low, high in zip([0.0] + cuts, cuts):
                self.slab_of.append(k)
                self.share.append(high - low)
            self.face.append(len(self.slab_of))
        self.n = len(self.slab_of) + 1
        self.theta, self.cap = [], []
        R = [section.rse]
        for k, share in zip(self.slab_of, self.share):
            R.append(R[-1] + section.slabs[k].R * share)
        total = R[-1] + section.rsi
        for _, te, pe, ti, pi in self.fixed:
            row = [te + (ti - te) * r / total for r in R]
            self.theta.append(row)
            self.cap.append([psat(t) for t in row])
        self.months = range(len(self.fixed))
        self.closed = (False, False)
        self.span = (0, self.n - 1)
        self.leak, self.source = None, [0.0] * len(self.fixed)
        self.held, self.start = None, None
        self.sd = [s.dry for s in section.slabs]
        if wets is None:
            wets = self.choose()
        self.wets = wets
        self.sd = [s.wet if w else s.dry
                   for s, w in zip(section.slabs, wets)]

    def node(self, place):
        k, x = place
        if (k, x) == (0, 0.0):
            return 0
        first = self.face[k]
        return first + 1 + min(range(len(self.cuts[k])),
                               key=lambda i: abs(self.cuts[k][i] - x))

    def along(self):
        s = [0.0]
        for k, share in zip(self.slab_of, self.share):
            s.append(s[-1] + max(self.sd[k], 1e-6) * share)
        return s

    def end(self, m, j):
        p = self.fixed[m][2] if j == 0 else self.fixed[m][4]
        return min(p, self.cap[m][j])

    def profile(self, m, wet):
        """Pressures and rates [kg/(m2 s)], nodes of `wet` on saturation."""
        s, cap = self.along(), self.cap[m]
        first, last = self.span
        rate, p = [0.0] * self.n, list(cap)
        stops = sorted({first, last} | {j for j in wet if first < j < last})
        for a, b in zip(stops, stops[1:]):
            pa = cap[a] if a in wet else None if a == first and self.closed[0] \
                else self.end(m, a) if a == first else cap[a]
            pb = cap[b] if b in wet else None if b == last and self.closed[1] \
                else self.end(m, b) if b == last else cap[b]
            if pa is None:   # a dry closed end: level at the lowest
                pa = min(cap[a:b + 1] + [pb])
            if pb is None:
                pb = min(cap[a:b + 1] + [pa])
            tent = [0.0] * self.n
            if self.leak is not None and a < self.leak < b and \
                    self.source[m] > 0:
                up, down = s[self.leak] - s[a], s[b] - s[self.leak]
                top = self.source[m] / DELTA_0 * up * down / (up + down)
                for j in range(a + 1, b):
                    tent[j] = top * ((s[j] - s[a]) / up if j <= self.leak
                                     else (s[b] - s[j]) / down)
                rate[a] += DELTA_0 * top / up
                rate[b] += DELTA_0 * top / down
            points = [(s[a], pa, a)] + \
                [(s[j], cap[j] - tent[j], j) for j in range(a + 1, b)] + \
                [(s[b], pb, b)]
            line = hull(points)
            for (s0, p0, i), (s1, p1, k) in zip(line, line[1:]):
                flow = DELTA_0 * (p1 - p0) / (s1 - s0)
                rate[i] += flow
                rate[k] -= flow
                for j in range(i, k + 1):
                    p[j] = p0 + (p1 - p0) * (s[j] - s0) / (s1 - s0) + tent[j]
        if self.leak is not None and self.leak in wet and self.source[m] > 0:
            rate[self.leak] += self.source[m]
        for j, shut in zip(self.span, self.closed):
            if not shut:
                rate[j] = 0.0
        return p, rate

    def rh(self, m, p, k):
        a, b = self.face[k], self.face[k + 1]
        return 0.5 * (p[a] / self.cap[m][a] + p[b] / self.cap[m][b])

    def settle(self, m, wet, which=0):
        """sd of the layers with a curve: the root is enclosed and halved."""
        variable = [k for k, s in enumerate(self.section.slabs) if s.curve]
        if which == len(variable):
            return
        k = variable[which]
        curve = self.section.slabs[k].curve

        def misfit(x):
            self.sd[k] = math.exp(x)
            self.settle(m, wet, which + 1)
            return math.log(on_curve(curve, self.rh(m, self.profile(m, wet)[0],
                                                    k))) - x
        low = math.log(min(y for _, y in curve))
        high = math.log(max(y for _, y in curve))
        if misfit(low) <= 0 or misfit(high) >= 0:
            return
        for _ in range(50):
            middle = 0.5 * (low + high)
            if misfit(middle) > 0:
                low = middle
            else:
                high = middle

    def choose(self):
        """Wet cups: mean RH over months and faces above 70 %."""
        mean = [0.0] * len(self.sd)
        for m in self.months:
            self.settle(m, set())
            p, _ = self.profile(m, set())
            for k in range(len(mean)):
                mean[k] += self.rh(m, p, k) / len(self.fixed)
        return [x > 0.70 and not s.curve and s.dry != s.wet
                for x, s in zip(mean, self.section.slabs)]

    def begin(self):
        self.mass = [0.0] * self.n
        self.dry_p, self.dry_sd, self.condenses = [], [], []
        for m in self.months:
            self.settle(m, set())
            p, rate = self.profile(m, set())
            self.dry_p.append(p)
            self.dry_sd.append(list(self.sd))
            self.condenses.append(max(rate) * self.fixed[m][0] > 1e-12)
        m = 0
        for _ in MONTHS:
            if self.condenses[m]:
                m = (m - 1) % 12
        for _ in MONTHS:
            if not self.condenses[m]:
                m = (m + 1) % 12
        if self.start is None:
            self.start = m

    def wet(self):
        return {j for j in range(self.n) if self.mass[j] > 0} | \
            ({self.held} if self.held is not None else set())

    def month(self, m, elapsed=None):
        """Returns pressures at its start and the gain of every node."""
        gain, p0 = [0.0] * self.n, self.dry_p[m]
        self.start_sd = self.dry_sd[m]
        if self.held is None and not self.condenses[m] and not any(self.mass):
            return p0, gain
        self.settle(m, self.wet())
        self.start_sd = list(self.sd)
        left, p0 = self.fixed[m][0], None
        while left > 0:
            p, rate = self.profile(m, self.wet())
            p0 = p0 or p
            time, dry = left, None
            for j in range(self.n):
                if self.mass[j] > 0 > rate[j] and j != self.held and \
                        self.mass[j] / -rate[j] < time:
                    time, dry = self.mass[j] / -rate[j], j
            for j in range(self.n):
                if j == self.held:
                    gain[j] += rate[j] * time
                    continue
                old = self.mass[j]
                now = old + rate[j] * time
                self.mass[j] = 0.0 if j == dry or now < 1e-14 else now
                gain[j] += self.mass[j] - old
                self.up += max(self.mass[j] - old, 0)
                self.down += max(old - self.mass[j], 0)
            left = left - time if time < left else 0.0
            if elapsed is not None and self.dried is None and \
                    sum(self.mass) <= NOTHING:
                self.dried = elapsed + 1 - left / self.fixed[m][0]
        return p0, gain

    def run(self):
        """Years until they repeat, grow alike, or are ten."""
        self.begin()
        self.up = self.down = 0.0
        before, self.peak = None, 0.0
        for year in range(10):
            at_start = list(self.mass)
            rows = {}
            peak = max(self.mass)
            for i in range(12):
                m = (self.start + i) % 12
                p, gain = self.month(m)
                rows[m] = (p, gain, list(self.mass), self.start_sd)
                peak = max(peak, *self.mass)
            if year == 0:
                self.first = rows
                self.left = sum(self.mass)
                self.first_up, self.first_down = self.up, self.down
            self.peak = peak
            now = [a - b for a, b in zip(self.mass, at_start)]
            self.growth = sum(now)
            scale = max(1.0, sum(self.mass))
            self.periodic = max(map(abs, now)) <= 1e-6
            grows = before and self.growth > 1e-6 and all(
                abs(a - b) <= 1e-9 * scale for a, b in zip(now, before))
            if self.periodic or grows:
                break
            before = now
        self.total = [sum(self.first[m][2]) for m in range(12)]

    def reserve(self, node):
        self.mass = [0.0] * self.n
        self.held = node
        lost = sum(self.month((self.start + i) % 12)[1][node]
                   for i in range(12))
        self.held = None
        return -lost - sum(self.mass)

    def set_leak(self, place, q50, height, k):
        self.leak = self.node(place)
        for m, (_, te, _, ti, pi) in enumerate(self.fixed):
            rho = [101325 / (287.05 * (t + 273.15)) for t in (te, ti)]
            dp = (rho[0] - rho[1]) * 9.81 * height / 2
            flow = max(0.0, (k[0] + k[1] * q50) * dp) / 3600
            v = pi / (462 * (ti + 273.15))
            there = self.cap[m][self.leak] / \
                (462 * (self.theta[m][self.leak] + 273.15))
            self.source[m] = max(0.0, flow * (v - there))

    def dry_out(self, place, water, start, way):
        """Months until no water is left anywhere, or None in ten years."""
        self.start = start
        self.begin_at = self.node(place)
        if way == 'outwards':
            self.span, self.closed = (0, self.begin_at), (False, True)
        if way == 'inwards':
            self.span, self.closed = (self.begin_at, self.n - 1), (True, False)
        self.begin()
        self.up = self.down = 0.0
        self.mass[self.begin_at] = water
        self.dried = None
        for i in range(120):
            if self.dried is None:
                self.month((start + i) % 12, i)
        return self.dried


def period(section, block):
    """Condensed, evaporable and reserve of DIN 4108-3 annex A [kg/m2]."""
    te, pe, ti, pi, seconds, p_v, p_s, t_ev = block
    wall = Wall(section, strips=False, fixed=[(seconds, te, pe, ti, pi)])
    wall.settle(0, set())
    p, rate = wall.profile(0, set())
    s, cap = wall.along(), wall.cap[0]
    drive = DELTA_0 * (p_s - p_v) * t_ev

    def ways(x):
        return drive / x, drive / (s[-1] - x)
    wet = [j for j in range(1, wall.n - 1) if rate[j] * seconds > 1e-12]
    masses = [rate[j] * seconds for j in wet]
    if not wet:
        worst = max(range(1, wall.n - 1), key=lambda j: p[j] / cap[j])
        return 0.0, sum(ways(s[worst]))
    if len(wet) == 1:
        return masses[0], sum(ways(s[wet[0]]))
    return None


# ---- the comparison -----------------------------------------------------------

def months_of(lines):
    rows = []
    for line in lines:
        words = line.split()
        if len(words) == 6 and words[0] in MONTHS:
            rows.append([float(w) for w in words[1:]])
        elif rows and words and words[0].startswith('Section'):
            break
    if len(rows) != 12:
        raise Differs('the working has no table of twelve months')
    return rows


def check_inputs(check, lines, rows, sections):
    text = flat(lines)
    for known in ('610.5 exp(17.269 theta / (237.3 + theta)) Pa from 0 degC on, '
                  '610.5 exp(21.875 theta / (265.5 + theta)) below',
                  'delta_0 = 2.0e-10', 'above 0.25 m2.K/W', 'is above 70 %',
                  'p_sat(theta) = p_i / 0.8'):
        check.true(f'the working does not say "{known}"', known in text)
    for name, days, row in zip(MONTHS, DAYS, rows):
        check.same(f'seconds of {name}', row[0], 86400 * days)
    room = re.search(rf'humidity class \d: p_i = p_e \+ ({NUMBER}) x dp, dp = '
                     rf'({NUMBER}) Pa', text)
    for name, (_, te, pe, _, pi) in zip(MONTHS, rows):
        if room and 'not of the soil' not in text:
            part_of = min(max(1 - te / 20, 0), 1)
            check.same(f'p_i of {name}', f'{pi:.2f}',
                       pe + float(room[1]) * float(room[2]) * part_of)
    for section in sections:
        for slab in section.slabs:
            where = f'{section.name}, No. {slab.number}'
            if slab.d and slab.lam:
                check.same(f'R of {where}', f'{slab.R:.6g}',
                           slab.d / 1000 / slab.lam)
            for sd, mu in ((slab.dry, slab.mu_dry), (slab.wet, slab.mu_wet)):
                if mu is not None:
                    check.same(f'sd of {where}', f'{sd:.6g}', mu * slab.d / 1000)


def check_cups(check, section, wall):
    for slab, wet in zip(section.slabs, wall.wets):
        if slab.takes in ('dry', 'wet'):
            check.true(f'{section.name}, No. {slab.number}: the sheet takes '
                       f'the {slab.takes} cup', slab.takes == ('dry', 'wet')[wet])
        check.true(f'{section.name}, No. {slab.number}: one value, and two',
                   (slab.takes == 'one') == (slab.dry == slab.wet)
                   or slab.curve)


def check_worked(check, section, wall):
    """The table of the month that is followed, and the figure it ends with."""
    month = found(r'Section \S+, (\w+): plane (\S+) followed', section.text,
                  'the month followed')
    m = MONTHS.index(month[1])
    p, gain, _, sd = wall.first[m]
    wall.sd = sd
    s = wall.along()
    planes = 0
    begun = False
    for line in section.lines:
        begun = begun or 'followed' in line
        words = line.split()
        if not begun or len(words) < 7 or \
                not re.match(r'\d+(\+[\d.]+)?$', words[0]) or \
                not re.match(rf'{NUMBER}$', words[5]):
            continue
        j = wall.node(section.place(words[0]))
        what = f'{section.name}, {month[1]}, plane {words[0]}'
        for name, printed, value in zip(
                ('sd', 'theta', 'p_sat', 'p', 'condenses'), words[1:],
                (s[j], wall.theta[m][j], wall.cap[m][j], p[j], 1000 * gain[j])):
            check.same(f'{what}: {name}', printed, value)
        planes += 1
    check.true(f'{section.name}: {planes} planes in the month followed',
               planes > len(section.slabs))
    j = wall.node(section.place(month[2]))
    end = re.search(rf'\] = ({NUMBER}) kg/m2', section.text)
    if end:
        check.same(f'{section.name}: the month followed', end[1],
                   wall.profile(m, {j for j in range(wall.n)
                                    if wall.first[(m - 1) % 12][2][j] > 0
                                    and m != wall.start})[1][j]
                   * wall.fixed[m][0])
    else:
        end = found(rf'= ({NUMBER}) Pa, ({NUMBER}) % RH', section.text,
                    'the month followed')
        check.same(f'{section.name}: p', end[1], p[j])
        check.same(f'{section.name}: RH', end[2], 100 * p[j] / wall.cap[m][j])


def check_months(check, section, wall, lines):
    """Every table printed of the run as built is that of a plane."""
    heads = [i for i, line in enumerate(lines)
             if line.startswith(f'  {section.name}, as built: ')
             and ': first year from' not in line]
    check.true(f'{section.name}: no table of months', heads)
    for at in heads:
        table = []
        for line in lines[at + 1:]:
            words = line.split()
            if words and words[0] in MONTHS:
                table.append(words)
            if len(table) == 12:
                break
        fault = None
        for j in range(wall.n):
            try:
                for m, words in enumerate(table):
                    p, gain, mass, _ = wall.first[m]
                    values = (wall.theta[m][j], wall.cap[m][j], p[j],
                              100 * p[j] / wall.cap[m][j], 1000 * gain[j],
                              1000 * mass[j])
                    for name, printed, value in zip(
                            ('theta', 'p_sat', 'p', 'RH', 'condenses',
                             'stands'), words[1:], values):
                        check.same(f'{section.name}, {words[0]}: {name}',
                                   printed, value)
                break
            except Differs as differs:
                # of the planes that differ the one that goes longest tells
                if fault is None or m >= fault[0]:
                    fault = (m, differs)
        else:
            raise fault[1]
        variable = [k for k, s in enumerate(section.slabs) if s.curve]
        for m, words in enumerate(table):
            for k, printed in zip(variable, words[7:]):
                check.same(f'{section.name}, {words[0]}: sd of No. '
                           f'{section.slabs[k].number}', printed,
                           wall.first[m][3][k])
    first = found(rf'{section.name}, as built: first year from (\w+)\.',
                  flat(lines), 'the first month')
    if any(wall.condenses):
        check.true(f'{section.name}: first month {first[1]}',
                   first[1] == MONTHS[wall.start])


def surface(section, rows, rsi):
    resistance = section.rse + sum(s.R for s in section.slabs)
    factor = resistance / (resistance + rsi)
    asked, highest = 0.0, 0.0
    for _, te, _, ti, pi in rows:
        highest = max(highest, pi / psat(te + factor * (ti - te)))
        if ti - te > 1:
            need = (dew_point(pi / 0.8) - te) / (ti - te)
            asked = need if asked == 0.0 else max(asked, need)
    return factor, asked, 100 * highest


def check_surface(check, section, rows, lines):
    seen = 0
    for line in lines:
        words = line.split()
        if words and words[0] == section.name and len(words) == 7:
            factor, asked, highest = surface(section, rows, float(words[2]))
            what = f'{section.name}, {words[1]}'
            check.same(f'{what}: fRsi', words[3], factor)
            check.same(f'{what}: asked', words[4], asked)
            check.same(f'{what}: highest RH', words[6], highest)
            seen += 1
    check.true(f'{section.name}: no surfaces', seen > 0)


def criteria_of(lines):
    """(section, title) -> words of the row, of both tables of criteria."""
    rows, section, column, key = {}, None, None, None
    for line in lines:
        head = re.match(r'  Section (\S+): ', line)
        if head:
            section, key = head[1], None
        elif line.startswith('  Criterion '):
            column = line.index('Method')
        elif line.startswith('      ') or not line.strip() or column is None:
            key = None if line.startswith('      ') else key
        elif re.match(r'(monthly|period|surface) ', line[column:]):
            key = [section, line[:column].strip(), line[column:].split()]
            rows[len(rows)] = key
        elif line[column:column + 1].strip():   # of another method
            key = None
        elif key is not None and line[column - 2:column].strip() == '':
            key[1] = (key[1] + ' ' + line[:column].strip()).strip()
    return [tuple(row) for row in rows.values()]


def expected_rows(check, section, wall, rows, leak, block):
    """Title -> (value, limit or None), as printed: g/m2, %, months."""
    made = {'Condensate left after a year':
            1000 * wall.left if wall.left > 1e-6 else 0.0,
            'Growth of stored condensate over the years':
            0.0 if wall.periodic else 1000 * wall.growth,
            'Most condensate at one time, all planes': 1000 * max(wall.total)}
    if section.reserve_at is not None:
        made['Drying reserve'] = \
            1000 * wall.reserve(wall.node(section.reserve_at))
    if leak and section.leak_at is not None:
        leaky = Wall(section, [section.leak_at], wets=wall.wets)
        leaky.set_leak(section.leak_at, *leak)
        leaky.run()
        made['Drying reserve less leaking room air'] = \
            1000 * leaky.reserve(leaky.node(section.leak_at))
    wetting = re.search(rf'({NUMBER}) kg/m2 put at plane (\S+) in (\w+)',
                        section.text)
    if wetting:
        for way, title in (('both', 'both ways'),
                           ('outwards', 'outwards only'),
                           ('inwards', 'inwards only')):
            test = Wall(section, [section.wet_at], wets=wall.wets)
            time = test.dry_out(section.wet_at, float(wetting[1]),
                                MONTHS.index(wetting[3]), way)
            made[f'Time to dry after a wetting, {title}'] = \
                120.0 if time is None and way == 'both' else time
    limits = {}
    for title, rsi in (('Surface temperature factor against mould', 0.25),
                       ('The same in a corner', 0.35),
                       ('The same behind a fitted cupboard', 1.0)):
        made[title], limits[title], _ = surface(section, rows, rsi)
    made['Highest monthly surface humidity'] = surface(section, rows, 0.25)[2]
    balance = block and period(section, block)
    if block is None:
        print(f'  {section.name}: no period balance')
    elif balance:
        made['Condensate against what can evaporate'] = 1000 * balance[0]
        limits['Condensate against what can evaporate'] = 1000 * balance[1]
        made['Condensate of the period'] = 1000 * balance[0]
        made['Drying reserve of the period'] = 1000 * (balance[1] - balance[0])
    else:
        print(f'  {section.name}: two planes or a zone in the period balance; '
              'those rows are not computed again')
    return made, limits


def check_criteria(check, section, made, limits, criteria):
    seen = set()
    for name, title, words in criteria:
        if name != section.name or title not in made:
            continue
        seen.add(title)
        what, value = f'{name}, {title}', made[title]
        if words[1] == '-':
            check.true(f'{what}: no value, computed {value}', value is None)
            continue
        check.true(f'{what}: {words[1]}, computed none', value is not None)
        check.same(what, words[1], value)
        if title in limits:
            check.same(f'{what}: limit', words[2], limits[title])
        if words[2] != '-':
            limit = limits.get(title, float(words[2]))
            check.same(f'{what}: margin', words[3].lstrip('-'),
                       abs(value - limit))
    missing = set(made) - seen
    must = {t for t in missing if 'Time to dry' not in t}
    check.true(f'{section.name}: no row {sorted(must)}', not must)


def check_balance(check, section, wall, made, lines):
    text = flat(lines)
    year = re.search(rf'{section.name}: in the first year ({NUMBER}) g/m2 '
                     rf'condense and ({NUMBER}) g/m2 dry; drying reserve '
                     rf'({NUMBER})?', text)
    check.true(f'{section.name}: no balance of the first year', year)
    check.same(f'{section.name}: condensed', year[1], 1000 * wall.first_up)
    check.same(f'{section.name}: dried', year[2], 1000 * wall.first_down)
    if year[3] and 'Drying reserve' in made:
        check.same(f'{section.name}: reserve', year[3], made['Drying reserve'])


def recompute(text):
    check = Check()
    parts = parts_of(text)
    lines = part(parts, 'Working of the monthly method')
    rows = months_of(lines)
    text = flat(lines)
    numbers = re.search(rf'outside ({NUMBER}) degC ({NUMBER}) Pa, inside ({NUMBER}) '
                    rf'degC ({NUMBER}) Pa for ({NUMBER}) s, then ({NUMBER}) Pa '
                    rf'on both sides of a plane at ({NUMBER}) Pa for ({NUMBER}) '
                    's', text)
    block = numbers and [float(x) for x in numbers.groups()]
    air = re.search(rf'V = \(({NUMBER}) \+ ({NUMBER}) q50\).*q50 = ({NUMBER}) '
                    rf'm3/\(m2\.h\), h = ({NUMBER}) m', text)
    leak = air and (float(air[3]), float(air[4]),
                    (float(air[1]), float(air[2])))
    starts = [(i, m[1]) for i, m in
              ((i, re.match(r'  Section (\S+), what goes in', line))
               for i, line in enumerate(lines)) if m]
    ends = [i for i, _ in starts[1:]] + [len(lines)]
    sections = [Section(name, lines[i:end], rows)
                for (i, name), end in zip(starts, ends)]
    check.true('the working has no section', sections)
    check_inputs(check, lines, rows, sections)
    criteria = criteria_of(part(parts, 'Criteria') + next(
        (v for k, v in parts.items() if k.startswith('Cross-check')), []))
    for section in sections:
        wall = Wall(section)
        wall.run()
        check_cups(check, section, wall)
        check_worked(check, section, wall)
        check_months(check, section, wall, part(parts, 'Month by month'))
        check_surface(check, section, rows, part(parts, 'Room-side surface'))
        made, limits = expected_rows(check, section, wall, rows, leak, block)
        check_criteria(check, section, made, limits, criteria)
        check_balance(check, section, wall, made,
                      part(parts, 'Balance, drying'))
    return check.count


def figures_of(text):
    """Where the figures stand that are computed from or again."""
    at, inside = 0, ''
    for line in text.splitlines(keepends=True):
        head = re.match(r'\d+  (.*?) -+$', line.rstrip('\n'))
        inside = head[1] if head else inside
        words = line.split()
        # of a row of layers or planes those before the words
        most = 8 if len(words) > 9 and words[8] in CUPS else \
            6 if len(words) > 6 and re.match(rf'{NUMBER}$', words[5]) and \
            re.match(r'\d+(\+[\d.]+)?$', words[0]) else 0
        if inside.startswith(('Month by month', 'Working')) and \
                words[:1] and words[0] in MONTHS or \
                inside.startswith('Room-side') and 'Rsi:' not in words or \
                inside.startswith('Balance') and 'in the first year' in line:
            most = len(words)
        elif inside.startswith('Criteria') and line.startswith(ROWS):
            most = len(words)
        elif not inside.startswith('Working'):
            most = 0
        for i, match in enumerate(re.finditer(r'\S+', line)):
            digit = re.match(rf'{NUMBER}$', match[0]) and \
                re.search('[1-9]', match[0])
            if 0 < i < most and digit:
                yield at + match.start() + digit.start()
        at += len(line)


def flip(path, count):
    """Changes the first digit of `count` figures, one after the other: each
    has to be found."""
    with open(path, encoding='utf-8') as file:
        text = file.read()
    places = list(figures_of(text))
    missed = 0
    for i in range(count):
        at = places[i * len(places) // count]
        digit = '2' if text[at] == '1' else '1'
        try:
            recompute(text[:at] + digit + text[at + 1:])
        except Differs:
            continue
        missed += 1
        line = text[:at].count('\n')
        print(f'{path}: not found: {text[at]} -> {digit} at column '
              f'{at - text.rfind(chr(10), 0, at)} of: '
              f'{text.splitlines()[line]}')
    print(f'{path}: {count - missed} of {count} changed figures found')
    return missed


def main():
    status = 0
    if sys.argv[1:2] == ['--flip']:
        return int(flip(sys.argv[3], int(sys.argv[2])) > 0)
    for path in sys.argv[1:]:
        try:
            with open(path, encoding='utf-8') as file:
                count = recompute(file.read())
            print(f'{path}: {count} figures as the sheet says')
        except Differs as differs:
            print(f'{path}: {differs}')
            status = 1
    return status


if __name__ == '__main__':
    sys.exit(main())
