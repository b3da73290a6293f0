"""What goes together along a tie, for verify.py: starters of one run, and the joints of a run that it touches."""
NONE = 1 << 62  # the price of what cannot be laid


def stretches(p, starters, joints, costs):  # [(cost, lo, hi, joints)] of starters in a row that are alike, cheapest first
    out = []
    for s, n, c in zip(starters, joints, costs):
        if out and (out[-1][0], out[-1][2], out[-1][3]) == (c, s - p.grid, n):
            out[-1][2] = s
        elif c < NONE:
            out.append([c, s, s, n])
    return sorted(out)


def goes(p, t, hi, n, x, m):  # whether a starter from t to hi has its n joints as far as the stagger from x + kL, k < m
    while t <= hi:
        k, span = (t - x) // p.L, p.stagger // p.L
        near = (x + q * p.L for q in range(max(k - span, 1 - n), min(k + 1 + span, m - 1) + 1))
        past = [y + p.stagger for y in near if abs(t - y) < p.stagger]
        if not past:
            return True  # else on to the first grid line past the nearest of them
        t = max(-(-min(past) // p.grid) * p.grid, t + p.grid)
