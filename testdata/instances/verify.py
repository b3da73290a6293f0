#!/usr/bin/env python3
"""Reference verifier of plank-floor instances, written from SPECIFICATION.md and the text of package proof alone.
Usage: python3 verify.py [FILE.jsonl ...]        needs nothing but Python 3.8
For every entry it recounts the planks of the layout and verifies the certificate of the bound, in whole numbers. It
prints a line for each entry that fails and a summary, and ends with 1 if any did or there is none."""
import bisect, json, multiprocessing, sys, counts, nodes
from ties import goes, stretches
D, NONE = 10**9, 1 << 62  # prices are in billionths of a plank; the price of what cannot be laid

def need(condition, message):
    if not condition:
        raise ValueError(message)
class Problem:
    def __init__(self, data):
        self.L, self.kerf, self.grid, self.stagger = (data[k] for k in ("plank", "kerf", "grid", "stagger"))
        self.least, self.ender = data["min_piece"], max(data["min_piece"], data.get("min_ender") or 0)
        self.runs, self.touch, self.offcuts = data["runs"], data["touch"] or [], data.get("offcuts") or []
        self.length, self.from_, self.known = [r["length"] for r in self.runs], [r["from"] for r in self.runs], {}
    def clash(self, a, n, b, m):  # whether joints a + kL, k < n, and b + kL, k < m, come nearer than the stagger
        k = (b - a) // self.L
        return n and m and any(abs(a - b + min(max(q, 1 - m), n - 1) * self.L) < self.stagger for q in (k, k + 1))
    def lay(self, i, s):  # (whole planks between, ender) of run i with starter s; None where a rule of its own forbids it
        (field, ender), begun = divmod(self.length[i] - s - 1, self.L), self.runs[i].get("starter")
        if begun:
            return (field, ender + 1) if s == begun else None
        near = any(self.clash(self.from_[i] + s, field + 1, x, 1) for x in self.runs[i].get("beside") or [])
        fine = max(self.least, 1) <= s <= self.L and s < self.length[i] and (s == self.L or s % self.grid == 0)
        return (field, ender + 1) if fine and ender + 1 >= self.ender and not near else None
    def one(self, i):  # whether run i may be one piece
        return self.length[i] <= self.L and not self.runs[i].get("starter")
    def ways(self, i):  # [(starter, whole planks between, ender)], ascending
        key = (self.length[i], str((self.runs[i].get("beside") or self.runs[i].get("starter")) and self.runs[i]))
        if key not in self.known:
            starters = [s for s in [*range(self.grid, self.L, self.grid), self.L] if self.lay(i, s)]
            self.known[key] = [(s,) + self.lay(i, s) for s in starters]
        return self.known[key]
def count(p, layout, packing):
    """The planks of a layout: whole ones, boards of starters and one-piece runs, and enders, less those that are paired or
    cut from offcuts. A shorter piece fits wherever a longer one does, so pairing the smallest first is best."""
    need(len(layout) == len(p.runs), "a layout has one starter a run")
    ways = [p.lay(i, s) if s else None for i, s in enumerate(layout)]
    for i, s in enumerate(layout):
        need(ways[i] or s == 0 and p.one(i), "run %d cannot be laid with starter %d" % (i, s))
    for a, b in p.touch:
        joints = [(p.from_[i] + layout[i], ways[i][0] + 1 if ways[i] else 0) for i in (a, b)]
        need(not p.clash(*joints[0], *joints[1]), "joints of runs %d and %d are too near" % (a, b))
    used = {i: s or p.length[i] for i, s in enumerate(layout)}  # of each board
    for i, h in [(i, h) for i, h in enumerate(packing or []) if h >= 0]:
        need(layout[i] == 0 and h != i and packing[h] == -1, "run %d cannot be packed with %d" % (i, h))
        used[h] += p.kerf + used.pop(i)
    need(max(used.values()) <= p.L, "a plank is overfull")
    split = [i for i in used if max(layout[i], p.length[i] * (not layout[i])) < p.L]
    whole = sum(w[0] + (w[1] == p.L) for w in ways if w) + len(used) - len(split)
    boards = sorted((used[i], layout[i] > 0) for i in split)
    rooms = sorted(p.L - p.kerf - w[1] for w in ways if w and w[1] < p.L)
    saved, right = 0, sorted((o["length"], o["end"] == "right") for o in p.offcuts if o["end"] != "left")
    for x, any_piece in right[::-1]:  # the longest board that fits, offcuts without a factory end for one-piece runs only
        fits = [b for b in boards if b[0] <= x and (any_piece or not b[1])]
        if fits:
            boards.remove(max(fits))
            saved += 1
    left = [(p.L - p.kerf - o["length"], o["length"]) for o in p.offcuts if o["end"] == "left"]
    guests = sorted([(x, None) for x, _ in boards] + left, key=lambda g: g[0])  # boards and left ends for enders
    paired = 0
    for room in rooms:
        paired += paired < len(guests) and guests[paired][0] <= room
    unused = sorted(x for _, x in guests[paired:] if x)
    for x in [x for x, starter in boards[::-1] if not starter and (x, None) in guests[paired:]]:
        fits = [y for y in unused if y >= x]  # one-piece runs on left-ended offcuts left over
        saved += bool(fits) and not unused.remove(fits[0])
    return whole + len(split) + len(rooms) - paired - saved
class Certificate:
    def __init__(self, p, data):
        self.p, self.claim, self.limits, self.most = p, data["planks"], {}, sum(w // p.L + 2 for w in p.length)
        if self.claim <= 0:
            return
        need(self.claim <= self.most and p.L // p.grid <= 10**6, "too many planks or grid lines")
        self.dropped, kept = [tuple(t) for t in data.get("dropped") or []], [tuple(t) for t in p.touch]
        need(set(self.dropped) <= set(kept), "a dropped pair does not touch")
        near, self.parent, self.order = [[] for _ in p.runs], [None] * len(p.runs), []
        for a, b in [pair for t in set(kept) - set(self.dropped) for pair in (t, t[::-1])]:
            near[a].append(b)
        for root in range(len(p.runs)):
            stack = [(root, -1)] if self.parent[root] is None else []
            while stack:
                i, up = stack.pop()
                need(self.parent[i] is None, "the pairs kept are no forest")
                self.parent[i], self.order = up, self.order + [i]
                stack += [(j, i) for j in near[i] if j != up]
        self.order.reverse()
        self.node(data["tree"], [])
    def node(self, n, on, depth=0):  # on: the sums split above, as (figure, below, 1 for at most or -1 for at least, value)
        split = nodes.split_of(n, self.p, self.most, depth)
        if not split:
            return self.leaf(n, on)
        of, v, i, below = split
        if of in nodes.SUMS:
            self.node(n["low"], on + [(of, below, 1, v)], depth + 1)
            return self.node(n["high"], on + [(of, below, -1, v + 1)], depth + 1)
        lo, hi, first, last = was = self.limits.get(i, (0, self.p.L, 0, self.p.L))
        starter = (lo, min(hi, v), first, last), (max(lo, v + 1), hi, first, last)
        place = (lo, hi, first, min(last, v)), (lo, 0, max(first, v + 1), last)
        for side, limit in zip(("low", "high"), starter if of == "starter" else place):
            self.limits[i] = limit
            self.node(n[side], on, depth + 1)
        self.limits = {**self.limits, i: was} if was != (0, self.p.L, 0, self.p.L) else \
            {k: x for k, x in self.limits.items() if k != i}
    def leaf(self, n, on):
        if n.get("counts"):
            return need(counts.fewest(self.p) >= self.claim, "by counts fewer planks than the claim may do")
        cost = self.cost(n, on)
        need(cost > (self.claim - 1) * D, "a layout may cost as little as %.6f planks" % (cost / D))
    def cost(self, n, on):  # of the cheapest layout of the case; NONE where it has none
        p, steps, factors, tables = self.p, n.get("prices"), n.get("multipliers") or [], {}
        self.at, self.price = [s["at"] for s in steps], [0] + [s["price"] for s in steps]
        self.free = {"right": n.get("free_starter", 0), "left": n.get("free_ender", 0)}
        need(0 <= min(self.free.values()) <= max(self.free.values()) < p.L, "whole planks are not free")
        need(self.at == sorted(set(self.at)) and self.at[0] >= 0 and self.price == sorted(self.price) and self.price[0] >= 0
             and (self.at[-1], self.price[-1]) == (p.L, D), "prices are no rising steps up to the plank")
        need(nodes.fit(factors, on, self.most), "multipliers do not fit the splits")
        cost = -self.on_hand() - sum(m * sign * v for m, (_, _, sign, v) in zip(factors, on))
        kept = self.agree() if self.limits else {}
        for i in self.order:
            starters, joints, costs, single = tables.pop(i, None) or self.table(i, kept, on, factors)
            cheap = stretches(p, starters, joints, costs)
            best, up = min([single] + [s[0] for s in cheap[:1]]), self.parent[i]
            if best >= NONE:
                return NONE
            if up < 0:
                cost += best
                continue
            s_up, j_up, c_up, single_up = tables.get(up) or self.table(up, kept, on, factors)
            for k, s in enumerate(s_up):
                least = min(single, next((c for c, lo, hi, n in cheap if c >= single or
                                          goes(p, lo, hi, n, s + p.from_[up] - p.from_[i], j_up[k])), NONE))
                c_up[k] = min(NONE, c_up[k] + least)
            tables[up] = (s_up, j_up, c_up, min(NONE, single_up + best))
        return cost
    def c(self, x):
        return self.price[bisect.bisect_right(self.at, x)]  # the price function
    def on_hand(self):  # what the offcuts on hand are worth
        p, worth, shortest = self.p, 0, min([w for i, w in enumerate(self.p.length) if self.p.one(i)] + [self.p.L + 1])
        most = {"left": len(p.runs), "right": sum(r.get("starter") != p.L for r in p.runs),
                "none": sum(p.one(i) for i in range(len(p.runs)))}
        for x, end in sorted(((o["length"], o["end"]) for o in p.offcuts), reverse=True):
            most[end], alone = most[end] - 1, x < shortest  # alone: it is a starter or an ender, or nothing
            if alone:
                pieces = [w[0 if end == "right" else 2] for i in range(len(p.runs)) for w in p.ways(i) if end != "none"]
                x = max([y for y in pieces if y <= x] + [0])
            if x and most[end] >= 0 and not (alone and x <= self.free.get(end, -1)):
                worth += D - self.c(p.L - p.kerf - x) if end == "left" else self.c(x)
        return worth
    def domain(self, i):  # ([(starter, joints)], whether it may be one piece)
        lo, hi, _, _ = self.limits.get(i, (0, self.p.L, 0, 0))
        return [(s, f + 1) for s, f, _ in self.p.ways(i) if lo <= s <= hi], lo == 0 and self.p.one(i)
    def agree(self):  # domains of runs of dropped pairs less what nothing of the other run goes with
        p, kept = self.p, {i: self.domain(i) for t in self.dropped for i in t}
        changed = set(kept)
        while changed:
            b = changed.pop()
            for i in [t[1 - t.index(b)] for t in self.dropped if b in t and not kept[b][1]]:
                ways = stretches(p, [s for s, _ in kept[b][0]], [n for _, n in kept[b][0]], [0] * len(kept[b][0]))
                delta = p.from_[i] - p.from_[b]
                left = [(s, n) for s, n in kept[i][0] if any(goes(p, w[1], w[2], w[3], s + delta, n) for w in ways)]
                if len(left) < len(kept[i][0]):
                    kept[i] = (left, kept[i][1])
                    changed.add(i)
        return kept
    def table(self, i, kept, on, factors):
        p, w, costs = self.p, self.p.length[i], []
        (domain, one), (_, _, first, last) = kept.get(i) or self.domain(i), self.limits.get(i, (0, 0, 0, p.L))
        places = [u for u in [first - p.kerf] + self.at if first <= u + p.kerf <= last and u + w + p.kerf <= p.L]
        single = D if one and w == p.L and first == 0 else NONE
        single = min([self.c(u + w + p.kerf) - self.c(u) for u in places if one and w < p.L] + [single])
        for s, n in domain:
            ender = w - s - (n - 1) * p.L
            room, cost = p.L - p.kerf - ender, n * D + (self.c(s) if s > self.free["right"] else 0)
            for m, (of, t, sign, _) in zip(factors, on):
                cost += m * sign * {"started": n, "starters": s < t, "enders": room < t}.get(of, (room < t) - (s < t))
            costs.append(cost - (self.c(room) if ender > self.free["left"] else D))
        return [s for s, _ in domain], [n for _, n in domain], costs, single
def check(line):
    entry = json.loads(line, parse_float=str)  # whatever counts is a whole number
    try:
        if "set" not in entry:
            p = Problem(entry["instance"])
            planks = count(p, entry["layout"], entry.get("packing"))
            need(planks == entry["planks"] >= entry["bound"] == entry["certificate"]["planks"], "it needs %d planks" % planks)
            Certificate(p, entry["certificate"])
            return entry["id"], entry["bound"] == planks, None
    except (ValueError, KeyError, TypeError, IndexError, RecursionError) as e:
        return entry.get("id"), False, repr(e)
if __name__ == "__main__":
    with multiprocessing.Pool() as pool:
        results = [r for name in sys.argv[1:] or ["instances.jsonl"] for r in pool.imap(check, open(name), 4) if r]
    failed = ["FAILED %s: %s\n" % (r[0], r[2]) for r in results if r[2]]
    counted = len(results) - len(failed), sum(r[1] for r in results), len(failed)
    print("".join(failed) + "%d entries verified, %d of them closed; %d failed" % counted)
    sys.exit(1 if failed or not results else 0)
