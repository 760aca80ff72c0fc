#!/usr/bin/env python3
"""Invented ducts along the rows of street trees of a real inventory, and a picture of a screening.

  screen_town.py works TREES.csv.gz DUCTS.csv [EVERY]     every EVERYth tree (40) gets a stretch of duct
  screen_town.py picture SCREENING.csv DUCTS.csv OUT.svg X Y [METRES [MERIDIAN]]
                                                          around X, Y of the UTM grid of that meridian

The inventory needs the columns tree_id, lon, lat. Standard library only. The ducts are invented: a
straight trench of 60 m and 0.4 m width, 1 to 3.5 m beside the line from a tree to its next
neighbour, at random from a fixed seed. No such works are planned anywhere."""
import csv, gzip, math, random, sys

RADIUS = 6371000.0


def utm(lon, lat, meridian):
    """Transverse Mercator on GRS 80 by the usual series: within a millimetre in one zone."""
    a, f, k0 = 6378137.0, 1 / 298.257222101, 0.9996
    e2 = f * (2 - f)
    ep2 = e2 / (1 - e2)
    p, l = math.radians(lat), math.radians(lon - meridian)
    n = a / math.sqrt(1 - e2 * math.sin(p) ** 2)
    t, c, aa = math.tan(p) ** 2, ep2 * math.cos(p) ** 2, l * math.cos(p)
    m = a * ((1 - e2 / 4 - 3 * e2 ** 2 / 64 - 5 * e2 ** 3 / 256) * p
             - (3 * e2 / 8 + 3 * e2 ** 2 / 32 + 45 * e2 ** 3 / 1024) * math.sin(2 * p)
             + (15 * e2 ** 2 / 256 + 45 * e2 ** 3 / 1024) * math.sin(4 * p)
             - 35 * e2 ** 3 / 3072 * math.sin(6 * p))
    x = 500000 + k0 * n * (aa + (1 - t + c) * aa ** 3 / 6
                           + (5 - 18 * t + t * t + 72 * c - 58 * ep2) * aa ** 5 / 120)
    y = k0 * (m + n * math.tan(p) * (aa * aa / 2 + (5 - t + 9 * c + 4 * c * c) * aa ** 4 / 24
              + (61 - 58 * t + t * t + 600 * c - 330 * ep2) * aa ** 6 / 720))
    return x, y


def works(trees_file, out_file, every=40):
    rows = []
    with gzip.open(trees_file, "rt", encoding="utf-8") as stream:
        for row in csv.DictReader(stream):
            try:
                rows.append((row["tree_id"], float(row["lon"]), float(row["lat"])))
            except ValueError:
                pass
    lat0 = sum(r[2] for r in rows) / len(rows)
    per_lon = math.radians(1) * RADIUS * math.cos(math.radians(lat0))
    per_lat = math.radians(1) * RADIUS
    places = [(lon * per_lon, lat * per_lat) for _, lon, lat in rows]
    cells = {}
    for i, (x, y) in enumerate(places):
        cells.setdefault((int(x // 25), int(y // 25)), []).append(i)
    dice = random.Random(1)
    made = 0
    with open(out_file, "w", encoding="utf-8") as out:
        out.write("id,kind,state,width_m,depth_m,notes,wkt\n")
        for i in range(0, len(places), every):
            x, y = places[i]
            near = [(math.hypot(places[j][0] - x, places[j][1] - y), j)
                    for cx in (-1, 0, 1) for cy in (-1, 0, 1)
                    for j in cells.get((int(x // 25) + cx, int(y // 25) + cy), ())]
            near = [n for n in near if n[0] > 4]
            if not near:
                continue
            length, j = min(near)
            ux, uy = (places[j][0] - x) / length, (places[j][1] - y) / length
            off = dice.uniform(1.0, 3.5) * dice.choice((-1, 1))
            ends = [(x - off * uy + t * ux, y + off * ux + t * uy) for t in (-30, 30)]
            made += 1
            out.write("invented-%d,trench,proposed,0.4,0.6,INVENTED,\"LINESTRING (%s)\"\n" % (
                made, ", ".join("%.8f %.8f" % (ex / per_lon, ey / per_lat) for ex, ey in ends)))
    print(made, "invented ducts")


def picture(screening_file, x0, y0, metres):
    half = metres / 2
    scale = 900 / metres
    marks, drawn = [], 0
    with open(screening_file, encoding="utf-8") as stream:
        for row in csv.DictReader(stream):
            if not row["x"]:
                continue
            x, y = float(row["x"]) - x0, float(row["y"]) - y0
            if abs(x) > half or abs(y) > half:
                continue
            px, py = (x + half) * scale, (half - y) * scale
            drawn += 1
            if row["status"] == "no figure":
                marks.append('<path d="M%.1f %.1fl8 8m0 -8l-8 8" class="n"/>' % (px - 4, py - 4))
                continue
            reached = row["status"] == "in reach"
            marks.append('<circle cx="%.1f" cy="%.1f" r="%.1f" class="%s"/>' % (
                px, py, float(row["radius_m"]) * scale, "r" if reached else "c"))
            marks.append('<circle cx="%.1f" cy="%.1f" r="2"/>' % (px, py))
            if reached:
                marks.append('<text x="%.1f" y="%.1f">%.1f</text>' % (
                    px + 4, py - 4, 100 * float(row["share"])))
    return marks, drawn, scale, half


def write_picture(screening_file, ducts_file, out_file, x0, y0, metres=260.0, meridian=-123.0):
    marks, drawn, scale, half = picture(screening_file, x0, y0, metres)
    lines = []
    with open(ducts_file, encoding="utf-8") as stream:
        for row in csv.DictReader(stream):
            pairs = row["wkt"].split("(")[1].rstrip(")").split(",")
            ends = [utm(*map(float, pair.split()), meridian) for pair in pairs]
            ends = [(x - x0, y - y0) for x, y in ends]
            if all(abs(x) > half + 60 or abs(y) > half + 60 for x, y in ends):
                continue
            lines.append('<path d="M%s" class="d"/>' % "L".join(
                "%.1f %.1f" % ((x + half) * scale, (half - y) * scale) for x, y in ends))
    with open(out_file, "w", encoding="utf-8") as out:
        out.write('<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 900 960" font-family="sans-serif">'
                  '<style>.r{fill:#000;fill-opacity:.18;stroke:#000;stroke-width:1.6}'
                  '.c{fill:none;stroke:#555;stroke-width:.8;stroke-dasharray:3 3}'
                  '.n{stroke:#000;stroke-width:2;fill:none}.d{stroke:#a33;stroke-width:2.4;fill:none}'
                  'text{font-size:11px}</style><rect width="900" height="960" fill="#fff"/>'
                  '<clipPath id="m"><rect width="900" height="900"/></clipPath><g clip-path="url(#m)">')
        out.write("".join(lines + marks))
        out.write('</g><path d="M20 930h%.1f" stroke="#000" stroke-width="3"/>' % (50 * scale))
        out.write('<text x="20" y="922">50 m</text>'
                  '<text x="230" y="922" style="font-size:13px">Street trees of Vancouver (open data), BS 5837:2012 zones. '
                  'THE DUCTS ARE INVENTED.</text>'
                  '<text x="230" y="942" style="font-size:13px">Full circle: in reach, with the share of the zone in per cent. '
                  'Dashed: clear. Cross: no figure.</text></svg>\n')
    print(drawn, "trees,", len(lines), "ducts drawn")


if __name__ == "__main__":
    if len(sys.argv) >= 4 and sys.argv[1] == "works":
        works(sys.argv[2], sys.argv[3], int(sys.argv[4]) if len(sys.argv) > 4 else 40)
    elif len(sys.argv) >= 7 and sys.argv[1] == "picture":
        write_picture(sys.argv[2], sys.argv[3], sys.argv[4], float(sys.argv[5]), float(sys.argv[6]),
                      *map(float, sys.argv[7:9]))
    else:
        sys.exit(__doc__)
