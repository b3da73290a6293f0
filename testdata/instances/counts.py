"""Leaves of counts, for verify.py: written from the section Counts of the text of package proof alone."""
import bisect
NONE = 1 << 62


def fewest(p):
    """The fewest planks for as many runs of each kind. A point (q, r) is kept as q L - r: the less the better."""
    L, apart, number = p.L, 0, {}
    in_steps = not p.offcuts and not any(w <= L or r.get("starter") for w, r in zip(p.length, p.runs))
    if any(o["length"] == L for o in p.offcuts):
        raise ValueError("no counts with an offcut on hand as long as a plank")
    for i, w in enumerate(p.length):
        ways = tuple((s, f + 1, max(0, L - p.kerf - e)) for s, f, e in p.ways(i))
        if not ways and w > L:
            raise ValueError("run %d cannot be laid" % i)
        if in_steps:
            more = ways[-1][1] - 1
            apart += more
            w, ways = NONE, tuple((s, n - more, r - r % p.grid) for s, n, r in ways)
        if p.runs[i].get("starter"):
            w = NONE  # never in one piece
        if w == L:
            apart += 1
        else:
            number[w, ways, ""] = number.get((w, ways, ""), 0) + 1
    for o in p.offcuts:
        number[o["length"], (), o["end"]] = number.get((o["length"], (), o["end"]), 0) + 1
    kinds, begin, size = list(number.items()), [], 1
    for k, ((_, ways, _), many) in enumerate(kinds):
        size *= many + 1
        begin += [(k,) + w for w, after in zip(ways, ways[1:] + ((0, 0, 0),))
                  if w[0] < L - p.kerf and after[:2] != (w[0] + p.grid, w[1])]
    if size * (len(begin) + 1) > 12000000:
        raise ValueError("too many counts")

    def lay(k, m):
        (w, ways, end), q = kinds[k][0], -(-m // L)
        r = q * L - m
        if end == "left" and r >= L - p.kerf - w:
            return (q - 1) * L - max(0, r - (L - w))
        while not end and w > r and not (ways and ways[0][0] <= r):
            q, r = q + 1, L
        if end or w <= r:
            return q * L - (max(r, w) if end else max(0, r - w - p.kerf))
        _, n, leaves = ways[bisect.bisect_right(ways, (r, NONE)) - 1]
        return (q + n) * L - leaves

    best, points, have = [0] * size, [[NONE] * len(begin) + [0]] + [None] * (size - 1), [0] * len(kinds)
    for v in range(1, size):
        k = next(k for k in range(len(kinds)) if have[k] < kinds[k][1])
        have[:k + 1] = [0] * k + [have[k] + 1]
        row, stride = [NONE] * (len(begin) + 1), 1
        for k, (_, many) in enumerate(kinds):
            if have[k]:
                row = [min(x, lay(k, m)) if m < NONE else x for x, m in zip(row, points[v - stride])]
                row[:-1] = [min(x, (best[v - stride] + b[2]) * L - b[3]) if b[0] == k else x for x, b in zip(row, begin)]
            stride *= many + 1
        best[v] = min(-(-m // L) + (w < len(begin) and -m % L < begin[w][1]) for w, m in enumerate(row) if m < NONE)
        row[-1], points[v] = min(row[-1], best[v] * L), row
    return best[-1] + apart
