#!/usr/bin/env bash
# Screening by Rootstead, by GEOS and in PostGIS on the same trees and trenches, one after the other:
# for PostGIS a database server of its own in a temporary folder, trees and works with GiST indexes,
# circles of 32 corners, two workers.
#
#   ./dev setup bench; bench/screen_peer.sh [TREES WORKS]
#
# Prints seconds of the screening alone: loading and indexing are not counted against the peer.
set -euo pipefail
trees=${1:-1000000}
works=${2:-100000}
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
tools=$(pg_config --bindir 2>/dev/null || ls -d /usr/lib/postgresql/*/bin | tail -1)
folder=$(mktemp -d /tmp/screen-peer.XXXXXX)
as=()  # a server never runs as root
if [ "$(id -u)" -eq 0 ]; then
  chown postgres "$folder"
  as=(runuser -u postgres --)
fi
stop() {
  "${as[@]}" "$tools/pg_ctl" -D "$folder/db" -m immediate stop >"$folder/stop.log" 2>&1 || true
  rm -rf "$folder"
}
trap stop EXIT

bench=${BENCH_SCREEN:-$root/build/release/bin/bench_screen}
"$bench" "$trees" "$works" | tee "$folder/ours"
"$bench" write "$trees" "$works" "$folder"
chmod 644 "$folder"/*.csv
"${as[@]}" "$tools/initdb" -D "$folder/db" -A trust --no-sync >"$folder/init.log"
"${as[@]}" "$tools/pg_ctl" -D "$folder/db" -w -l "$folder/log" \
  -o "-k $folder -c listen_addresses='' -c shared_buffers=1GB -c work_mem=256MB -c fsync=off \
      -c max_parallel_workers_per_gather=2 -c parallel_setup_cost=0 -c parallel_tuple_cost=0 \
      -c maintenance_work_mem=512MB -c jit=off" start >"$folder/start.log"
sql() { "${as[@]}" "$tools/psql" -h "$folder" -d postgres -v ON_ERROR_STOP=1 -qAt "$@"; }

sql <<SQL
CREATE EXTENSION postgis;
CREATE TABLE tree_rows (id bigint, e float8, n float8, dbh float8, form text, radius float8);
COPY tree_rows FROM '$folder/trees.csv' CSV HEADER;
CREATE TABLE work_rows (id text, kind text, depth float8, wkt text);
COPY work_rows FROM '$folder/works.csv' CSV HEADER;
CREATE TABLE trees AS SELECT id, radius, ST_SetSRID(ST_MakePoint(e, n), 32610) AS geom FROM tree_rows;
CREATE TABLE works AS SELECT id, ST_GeomFromText(wkt, 32610) AS geom FROM work_rows;
CREATE INDEX ON trees USING gist (geom);
CREATE INDEX ON works USING gist (geom);
VACUUM ANALYZE trees;
VACUUM ANALYZE works;
SQL
sql -c 'SELECT postgis_full_version()' | cut -c1-120
plan="SELECT count(*), sum(area) FROM (SELECT t.id, sum(ST_Area(ST_Intersection(c.circle, w.geom))) AS area
  FROM trees t CROSS JOIN LATERAL (SELECT ST_Buffer(t.geom, t.radius, 8) AS circle OFFSET 0) c
  JOIN works w ON ST_Intersects(c.circle, w.geom) GROUP BY t.id) s"
sql -c "EXPLAIN $plan" | grep -i -c parallel | sed 's/^/parallel steps in the plan: /'
sql -c '\timing on' -c "$plan" | tee "$folder/theirs"
awk '/^Rootstead/ { ours = $4 } /^Time:/ { printf "PostGIS waited %.1f times as long as Rootstead with 2 threads\n", $2 / 1000 / ours }' \
  "$folder/ours" "$folder/theirs"
