-- A project of format 2, as the program of that format wrote it (the styles of its layers left
-- out): two trees, one with a buried flare, a trench, a bore, an opening with two roots, two layers
-- of soil, wind.
PRAGMA application_id = 1196444487;
PRAGMA user_version = 10300;
BEGIN TRANSACTION;
CREATE TABLE gpkg_spatial_ref_sys (
  srs_name TEXT NOT NULL, srs_id INTEGER NOT NULL PRIMARY KEY, organization TEXT NOT NULL,
  organization_coordsys_id INTEGER NOT NULL, definition TEXT NOT NULL, description TEXT);
INSERT INTO gpkg_spatial_ref_sys VALUES('Undefined Cartesian',-1,'NONE',-1,'undefined','a plane without a place');
INSERT INTO gpkg_spatial_ref_sys VALUES('Undefined geographic',0,'NONE',0,'undefined','longitude and latitude of unknown datum');
INSERT INTO gpkg_spatial_ref_sys VALUES('WGS 84',4326,'EPSG',4326,'GEOGCS["WGS 84",DATUM["WGS_1984",SPHEROID["WGS 84",6378137,298.257223563,AUTHORITY["EPSG","7030"]],AUTHORITY["EPSG","6326"]],PRIMEM["Greenwich",0,AUTHORITY["EPSG","8901"]],UNIT["degree",0.0174532925199433,AUTHORITY["EPSG","9122"]],AXIS["Latitude",NORTH],AXIS["Longitude",EAST],AUTHORITY["EPSG","4326"]]','EPSG:4326');
INSERT INTO gpkg_spatial_ref_sys VALUES('OSGB36 / British National Grid',27700,'EPSG',27700,'PROJCS["OSGB36 / British National Grid",GEOGCS["OSGB36",DATUM["Ordnance_Survey_of_Great_Britain_1936",SPHEROID["Airy 1830",6377563.396,299.3249646,AUTHORITY["EPSG","7001"]],AUTHORITY["EPSG","6277"]],PRIMEM["Greenwich",0,AUTHORITY["EPSG","8901"]],UNIT["degree",0.0174532925199433,AUTHORITY["EPSG","9122"]],AUTHORITY["EPSG","4277"]],PROJECTION["Transverse_Mercator"],PARAMETER["latitude_of_origin",49],PARAMETER["central_meridian",-2],PARAMETER["scale_factor",0.9996012717],PARAMETER["false_easting",400000],PARAMETER["false_northing",-100000],UNIT["metre",1,AUTHORITY["EPSG","9001"]],AXIS["Easting",EAST],AXIS["Northing",NORTH],AUTHORITY["EPSG","27700"]]','EPSG:27700');
CREATE TABLE gpkg_contents (
  table_name TEXT NOT NULL PRIMARY KEY, data_type TEXT NOT NULL, identifier TEXT UNIQUE,
  description TEXT DEFAULT '',
  last_change DATETIME NOT NULL DEFAULT (strftime('%Y-%m-%dT%H:%M:%fZ','now')),
  min_x DOUBLE, min_y DOUBLE, max_x DOUBLE, max_y DOUBLE, srs_id INTEGER,
  CONSTRAINT fk_gc_r_srs_id FOREIGN KEY (srs_id) REFERENCES gpkg_spatial_ref_sys(srs_id));
INSERT INTO gpkg_contents VALUES('trees','features','trees','Trees as surveyed','2026-11-27T22:41:45.000Z',NULL,NULL,NULL,NULL,27700);
INSERT INTO gpkg_contents VALUES('stems','attributes','stems','Stems of each tree, as measured','2026-11-27T22:41:45.000Z',NULL,NULL,NULL,NULL,NULL);
INSERT INTO gpkg_contents VALUES('crowns','attributes','crowns','Crown radii by direction, as measured','2026-11-27T22:41:45.000Z',NULL,NULL,NULL,NULL,NULL);
INSERT INTO gpkg_contents VALUES('flares','attributes','flares','Root flare of each tree, where it was looked at','2026-11-27T22:41:45.000Z',NULL,NULL,NULL,NULL,NULL);
INSERT INTO gpkg_contents VALUES('works','features','works','Proposed and existing works','2026-11-27T22:41:45.000Z',NULL,NULL,NULL,NULL,27700);
INSERT INTO gpkg_contents VALUES('bore_pits','features','bore_pits','Launch and reception pits of bores','2026-11-27T22:41:45.000Z',NULL,NULL,NULL,NULL,27700);
INSERT INTO gpkg_contents VALUES('barriers','features','barriers','Walls, kerbs and other things roots meet','2026-11-27T22:41:45.000Z',NULL,NULL,NULL,NULL,27700);
INSERT INTO gpkg_contents VALUES('ground','features','ground','Ground that is surfaced today','2026-11-27T22:41:45.000Z',NULL,NULL,NULL,NULL,27700);
INSERT INTO gpkg_contents VALUES('soils','attributes','soils','Soil of the site','2026-11-27T22:41:45.000Z',NULL,NULL,NULL,NULL,NULL);
INSERT INTO gpkg_contents VALUES('soil_layers','attributes','soil_layers','Layers of the soil, from the top down','2026-11-27T22:41:45.000Z',NULL,NULL,NULL,NULL,NULL);
INSERT INTO gpkg_contents VALUES('wind','attributes','wind','Wind the anchorage is checked with','2026-11-27T22:41:45.000Z',NULL,NULL,NULL,NULL,NULL);
INSERT INTO gpkg_contents VALUES('evidence_pits','features','evidence_pits','Ground that was opened and looked at','2026-11-27T22:41:45.000Z',NULL,NULL,NULL,NULL,27700);
INSERT INTO gpkg_contents VALUES('evidence_roots','features','evidence_roots','Roots found in the openings','2026-11-27T22:41:45.000Z',NULL,NULL,NULL,NULL,27700);
INSERT INTO gpkg_contents VALUES('settings','attributes','settings','Title block texts and choices','2026-11-27T22:41:45.000Z',NULL,NULL,NULL,NULL,NULL);
INSERT INTO gpkg_contents VALUES('imports','attributes','imports','What was added, from where, by which column map','2026-11-27T22:41:45.000Z',NULL,NULL,NULL,NULL,NULL);
INSERT INTO gpkg_contents VALUES('problems','attributes','problems','Rows of sources that were doubtful or not taken','2026-11-27T22:41:45.000Z',NULL,NULL,NULL,NULL,NULL);
INSERT INTO gpkg_contents VALUES('journal','attributes','journal','What was done, in order; each row seals the one before','2026-11-27T22:41:45.000Z',NULL,NULL,NULL,NULL,NULL);
INSERT INTO gpkg_contents VALUES('assessment','attributes','assessment','What the results below were computed with','2026-11-27T22:41:44.000Z',NULL,NULL,NULL,NULL,NULL);
INSERT INTO gpkg_contents VALUES('cautions','attributes','cautions','Read before using any result','2026-11-27T22:41:44.000Z',NULL,NULL,NULL,NULL,NULL);
INSERT INTO gpkg_contents VALUES('zones','features','zones','Zones by rule, and what works take of them','2026-11-27T22:41:44.000Z',NULL,NULL,NULL,NULL,27700);
INSERT INTO gpkg_contents VALUES('losses','attributes','losses','What each work takes of each zone','2026-11-27T22:41:44.000Z',NULL,NULL,NULL,NULL,NULL);
INSERT INTO gpkg_contents VALUES('root_losses','attributes','root_losses','Likely share of absorbing roots lost, by work','2026-11-27T22:41:44.000Z',NULL,NULL,NULL,NULL,NULL);
INSERT INTO gpkg_contents VALUES('limits','attributes','limits','Limits of the rules, passed or not','2026-11-27T22:41:44.000Z',NULL,NULL,NULL,NULL,NULL);
INSERT INTO gpkg_contents VALUES('anchorage','attributes','anchorage','Anchorage kept after the works','2026-11-27T22:41:44.000Z',NULL,NULL,NULL,NULL,NULL);
INSERT INTO gpkg_contents VALUES('verdicts','features','verdicts','What should happen to each tree, and why','2026-11-27T22:41:44.000Z',NULL,NULL,NULL,NULL,27700);
CREATE TABLE gpkg_geometry_columns (
  table_name TEXT NOT NULL, column_name TEXT NOT NULL, geometry_type_name TEXT NOT NULL,
  srs_id INTEGER NOT NULL, z TINYINT NOT NULL, m TINYINT NOT NULL,
  CONSTRAINT pk_geom_cols PRIMARY KEY (table_name, column_name),
  CONSTRAINT uk_gc_table_name UNIQUE (table_name),
  CONSTRAINT fk_gc_tn FOREIGN KEY (table_name) REFERENCES gpkg_contents(table_name),
  CONSTRAINT fk_gc_srs FOREIGN KEY (srs_id) REFERENCES gpkg_spatial_ref_sys (srs_id));
INSERT INTO gpkg_geometry_columns VALUES('trees','geom','POINT',27700,0,0);
INSERT INTO gpkg_geometry_columns VALUES('works','geom','GEOMETRY',27700,0,0);
INSERT INTO gpkg_geometry_columns VALUES('bore_pits','geom','MULTIPOLYGON',27700,0,0);
INSERT INTO gpkg_geometry_columns VALUES('barriers','geom','GEOMETRY',27700,0,0);
INSERT INTO gpkg_geometry_columns VALUES('ground','geom','MULTIPOLYGON',27700,0,0);
INSERT INTO gpkg_geometry_columns VALUES('evidence_pits','geom','GEOMETRY',27700,0,0);
INSERT INTO gpkg_geometry_columns VALUES('evidence_roots','geom','POINT',27700,0,0);
INSERT INTO gpkg_geometry_columns VALUES('zones','geom','MULTIPOLYGON',27700,0,0);
INSERT INTO gpkg_geometry_columns VALUES('verdicts','geom','POINT',27700,0,0);
CREATE TABLE trees (fid INTEGER PRIMARY KEY AUTOINCREMENT, geom POINT, position_source TEXT, position_error DOUBLE, position_error_unit TEXT, id TEXT, tag TEXT, botanical_name TEXT, common_name TEXT, growth_form TEXT, basal_diameter DOUBLE, basal_diameter_unit TEXT, height DOUBLE, height_unit TEXT, condition TEXT, life_stage TEXT, lean_deg DOUBLE, lean_towards_deg DOUBLE, ownership TEXT, protection TEXT, category TEXT, notes TEXT, origin_file TEXT, origin_place TEXT, UNIQUE (id), CHECK (id IS NOT NULL AND id <> ''));
INSERT INTO trees VALUES(1,X'47500001346c0000010100000000000000a02c20410000000000f90541','',NULL,NULL,'T1','T1','','','unknown',NULL,NULL,12.0,'m','unknown','unknown',NULL,NULL,'','','','','t.csv','row 2');
INSERT INTO trees VALUES(2,X'47500001346c0000010100000000000000b42c20410000000028f90541','',NULL,NULL,'T2','T2','','','unknown',NULL,NULL,18.0,'m','unknown','unknown',NULL,NULL,'','','','','t.csv','row 3');
CREATE TABLE stems (fid INTEGER PRIMARY KEY AUTOINCREMENT, tree_id TEXT, number INTEGER, measured TEXT, size DOUBLE, size_unit TEXT, measured_at DOUBLE, measured_at_unit TEXT, FOREIGN KEY (tree_id) REFERENCES trees (id) ON UPDATE CASCADE ON DELETE CASCADE);
INSERT INTO stems VALUES(1,'T1',1,'diameter',45.0,'cm',NULL,NULL);
INSERT INTO stems VALUES(2,'T2',1,'diameter',60.0,'cm',NULL,NULL);
CREATE TABLE crowns (fid INTEGER PRIMARY KEY AUTOINCREMENT, tree_id TEXT, north DOUBLE, north_unit TEXT, east DOUBLE, east_unit TEXT, south DOUBLE, south_unit TEXT, west DOUBLE, west_unit TEXT, base_height DOUBLE, base_height_unit TEXT, columnar BOOLEAN, UNIQUE (tree_id), FOREIGN KEY (tree_id) REFERENCES trees (id) ON UPDATE CASCADE ON DELETE CASCADE);
CREATE TABLE flares (fid INTEGER PRIMARY KEY AUTOINCREMENT, tree_id TEXT, state TEXT, buried_by DOUBLE, buried_by_unit TEXT, UNIQUE (tree_id), FOREIGN KEY (tree_id) REFERENCES trees (id) ON UPDATE CASCADE ON DELETE CASCADE);
INSERT INTO flares VALUES(1,'T1','buried',NULL,NULL);
CREATE TABLE works (fid INTEGER PRIMARY KEY AUTOINCREMENT, geom GEOMETRY, id TEXT, name TEXT, kind TEXT, state TEXT, method TEXT, width DOUBLE, width_unit TEXT, depth DOUBLE, depth_unit TEXT, working_room DOUBLE, working_room_unit TEXT, bore_diameter DOUBLE, bore_diameter_unit TEXT, spacing DOUBLE, spacing_unit TEXT, permeable BOOLEAN, notes TEXT, origin_file TEXT, origin_place TEXT, UNIQUE (id), CHECK (id IS NOT NULL AND id <> ''));
INSERT INTO works VALUES(1,X'47500003346c000000000000a02c204100000000b82c20410000000020f905410000000020f9054101050000000100000001020000000200000000000000a02c20410000000020f9054100000000b82c20410000000020f90541','W1','','trench','proposed','machine',600.0,'mm',900.0,'mm',NULL,NULL,NULL,NULL,NULL,NULL,0,'','w.csv','row 2');
INSERT INTO works VALUES(2,X'47500003346c000000000000a02c204100000000b82c20410000000070f905410000000070f9054101050000000100000001020000000200000000000000a02c20410000000070f9054100000000b82c20410000000070f90541','W2','','bore','proposed','machine',150.0,'mm',1200.0,'mm',NULL,NULL,NULL,NULL,NULL,NULL,0,'','w.csv','row 3');
CREATE TABLE bore_pits (fid INTEGER PRIMARY KEY AUTOINCREMENT, geom MULTIPOLYGON, work_id TEXT, FOREIGN KEY (work_id) REFERENCES works (id) ON UPDATE CASCADE ON DELETE CASCADE);
CREATE TABLE barriers (fid INTEGER PRIMARY KEY AUTOINCREMENT, geom GEOMETRY, id TEXT, name TEXT, kind TEXT, width DOUBLE, width_unit TEXT, depth DOUBLE, depth_unit TEXT, notes TEXT, origin_file TEXT, origin_place TEXT, UNIQUE (id), CHECK (id IS NOT NULL AND id <> ''));
CREATE TABLE ground (fid INTEGER PRIMARY KEY AUTOINCREMENT, geom MULTIPOLYGON, id TEXT, name TEXT, permeable BOOLEAN, origin_file TEXT, origin_place TEXT, UNIQUE (id), CHECK (id IS NOT NULL AND id <> ''));
CREATE TABLE soils (fid INTEGER PRIMARY KEY AUTOINCREMENT, texture TEXT, drainage TEXT, rooting_depth DOUBLE, rooting_depth_unit TEXT, water_table DOUBLE, water_table_unit TEXT, compacted BOOLEAN, notes TEXT);
INSERT INTO soils VALUES(2,'loam','unknown',NULL,NULL,1.1999999999999999555,'m',0,'');
CREATE TABLE soil_layers (fid INTEGER PRIMARY KEY AUTOINCREMENT, number INTEGER, bottom DOUBLE, bottom_unit TEXT, texture TEXT, bulk_density DOUBLE, air_filled DOUBLE, resistance DOUBLE);
INSERT INTO soil_layers VALUES(3,1,300.0,'mm','loam',1.4499999999999999555,NULL,NULL);
INSERT INTO soil_layers VALUES(4,2,900.0,'mm','clay',NULL,NULL,NULL);
CREATE TABLE wind (fid INTEGER PRIMARY KEY AUTOINCREMENT, standard TEXT, basic_speed DOUBLE, terrain TEXT, return_years DOUBLE, elevation DOUBLE);
INSERT INTO wind VALUES(1,'en1991',24.0,'III',50.0,0.0);
CREATE TABLE evidence_pits (fid INTEGER PRIMARY KEY AUTOINCREMENT, geom GEOMETRY, id TEXT, kind TEXT, tree_id TEXT, width DOUBLE, width_unit TEXT, depth DOUBLE, depth_unit TEXT, counted_from DOUBLE, counted_from_unit TEXT, date TEXT, seen_by TEXT, notes TEXT, origin_file TEXT, origin_place TEXT, UNIQUE (id), CHECK (id IS NOT NULL AND id <> ''));
INSERT INTO evidence_pits VALUES(1,X'47500003346c000000000000a42c204100000000a42c20410000000010f905410000000010f90541010400000001000000010100000000000000a42c20410000000010f90541','P1','pit','T1',NULL,NULL,600.0,'mm',20.0,'mm','','','','p.csv','row 2');
CREATE TABLE evidence_roots (fid INTEGER PRIMARY KEY AUTOINCREMENT, geom POINT, evidence_id TEXT, number INTEGER, diameter DOUBLE, diameter_unit TEXT, depth DOUBLE, depth_unit TEXT, alive BOOLEAN, FOREIGN KEY (evidence_id) REFERENCES evidence_pits (id) ON UPDATE CASCADE ON DELETE CASCADE);
INSERT INTO evidence_roots VALUES(1,NULL,'P1',1,35.0,'mm',NULL,NULL,1);
INSERT INTO evidence_roots VALUES(2,NULL,'P1',2,50.0,'mm',NULL,NULL,0);
CREATE TABLE settings (fid INTEGER PRIMARY KEY AUTOINCREMENT, key TEXT, value TEXT, UNIQUE (key), CHECK (key IS NOT NULL));
INSERT INTO settings VALUES(1,'file.format_version','2');
INSERT INTO settings VALUES(2,'file.system','EPSG:27700');
INSERT INTO settings VALUES(3,'file.system_datum','Ordnance Survey of Great Britain 1936');
INSERT INTO settings VALUES(4,'file.system_name','OSGB36 / British National Grid');
INSERT INTO settings VALUES(5,'file.system_unit','m');
INSERT INTO settings VALUES(17,'address','');
INSERT INTO settings VALUES(18,'author','');
INSERT INTO settings VALUES(19,'client','');
INSERT INTO settings VALUES(20,'credentials','');
INSERT INTO settings VALUES(21,'date','');
INSERT INTO settings VALUES(22,'demo','no');
INSERT INTO settings VALUES(23,'revision','');
INSERT INTO settings VALUES(24,'rule.1','bs5837-2012');
INSERT INTO settings VALUES(25,'status','');
INSERT INTO settings VALUES(26,'title','');
INSERT INTO settings VALUES(27,'units','metric');
CREATE TABLE imports (fid INTEGER PRIMARY KEY AUTOINCREMENT, added_at TEXT, source TEXT, kind TEXT, mapping TEXT, rows_read INTEGER, trees INTEGER, works INTEGER, barriers INTEGER, surfaces INTEGER, problems INTEGER, openings INTEGER, soil_layers INTEGER);
INSERT INTO imports VALUES(1,'2026-11-27T22:41:45Z','t.csv','trees',replace('\n[columns]\neasting = "x"\nflare = "root flare"\nheight = { column = "height (m)", unit = "m" }\nnorthing = "y"\nstem_diameter = { column = "dbh (cm)", unit = "cm" }\ntag = "tag"\n','\n',char(10)),2,2,0,0,0,0,0,0);
INSERT INTO imports VALUES(2,'2026-11-27T22:41:45Z','w.csv','works',replace('\n[columns]\ndepth = { column = "depth (mm)", unit = "mm" }\nid = "id"\nkind = "kind"\nwidth = { column = "width (mm)", unit = "mm" }\nwkt = "wkt"\n','\n',char(10)),2,0,2,0,0,0,0,0);
INSERT INTO imports VALUES(3,'2026-11-27T22:41:45Z','p.csv','evidence',replace('\n[columns]\nalive = "alive"\ndepth = { column = "depth (mm)", unit = "mm" }\neasting = "x"\nid = "pit"\nkind = "kind"\nnorthing = "y"\nroot_diameter = { column = "root diameter (mm)", unit = "mm" }\ntree = "tree"\n','\n',char(10)),2,0,0,0,0,0,1,0);
INSERT INTO imports VALUES(4,'2026-11-27T22:41:45Z','s.csv','soil',replace('\n[columns]\nbottom = "bottom"\nbulk_density = "bulk density (g/cm3)"\ntexture = "texture"\nwater_table = "water table"\n','\n',char(10)),2,0,0,0,0,0,0,2);
CREATE TABLE problems (fid INTEGER PRIMARY KEY AUTOINCREMENT, import_number INTEGER, blocks BOOLEAN, code INTEGER, subject TEXT, message TEXT, remedy TEXT);
CREATE TABLE journal (fid INTEGER PRIMARY KEY AUTOINCREMENT, written_at TEXT, action TEXT, detail TEXT, previous_hash TEXT, hash TEXT);
INSERT INTO journal VALUES(1,'2026-11-27T22:41:44Z','new','project in EPSG:27700','','4bbae2c46f9cc4aa158a233b578872ac728fbd231479cc8199560e57fce6fc68');
INSERT INTO journal VALUES(2,'2026-11-27T22:41:45Z','add','t.csv: 2 trees from 2 rows','4bbae2c46f9cc4aa158a233b578872ac728fbd231479cc8199560e57fce6fc68','fa236e2c501e1e538b6b312ba47772e82f95f0361326123911df7315dba1789e');
INSERT INTO journal VALUES(3,'2026-11-27T22:41:45Z','add','w.csv: 2 works from 2 rows','fa236e2c501e1e538b6b312ba47772e82f95f0361326123911df7315dba1789e','f2d602f437b2a478b685df66235426a483b0bbfc9eb5b6f7d5c1dc6d70c634ea');
INSERT INTO journal VALUES(4,'2026-11-27T22:41:45Z','add','p.csv: 1 opening from 2 rows','f2d602f437b2a478b685df66235426a483b0bbfc9eb5b6f7d5c1dc6d70c634ea','00a26281dca59b4485b1061249c1cd2149d8dd99c2119974b6b4ebfc1745b360');
INSERT INTO journal VALUES(5,'2026-11-27T22:41:45Z','add','s.csv: soil, 2 soil layers from 2 rows','00a26281dca59b4485b1061249c1cd2149d8dd99c2119974b6b4ebfc1745b360','32a247b324880cd5980efae4ee2a9407585ebb6f86975d73ac30e6ea5431c479');
INSERT INTO journal VALUES(6,'2026-11-27T22:41:45Z','set','wind.standard = en1991, wind.speed = 24 m/s, wind.terrain = III, soil.texture = loam','32a247b324880cd5980efae4ee2a9407585ebb6f86975d73ac30e6ea5431c479','02378f3288fd37312804d43821093aa7c71b6acfed2ce342d32bc2eec7a0bc0f');
CREATE TABLE assessment (fid INTEGER PRIMARY KEY AUTOINCREMENT, assessed_at TEXT, data_version TEXT, seed INTEGER, draws INTEGER, trees INTEGER, invented_data BOOLEAN);
CREATE TABLE cautions (fid INTEGER PRIMARY KEY AUTOINCREMENT, caution TEXT);
CREATE TABLE zones (fid INTEGER PRIMARY KEY AUTOINCREMENT, geom MULTIPOLYGON, tree_id TEXT, rule TEXT, zone TEXT, name TEXT, purpose TEXT, radius_m DOUBLE, area_m2 DOUBLE, affected_m2 DOUBLE, affected_share DOUBLE, limits_passed INTEGER, limits TEXT, capped BOOLEAN, raised BOOLEAN, redrawn BOOLEAN, formula TEXT, source TEXT, source_place TEXT, status TEXT);
CREATE TABLE losses (fid INTEGER PRIMARY KEY AUTOINCREMENT, tree_id TEXT, rule TEXT, zone TEXT, work_id TEXT, existing BOOLEAN, affected_m2 DOUBLE, affected_share DOUBLE, footprint_m2 DOUBLE, nearest_m DOUBLE);
CREATE TABLE root_losses (fid INTEGER PRIMARY KEY AUTOINCREMENT, tree_id TEXT, work_id TEXT, loss_low DOUBLE, loss_best DOUBLE, loss_high DOUBLE);
CREATE TABLE limits (fid INTEGER PRIMARY KEY AUTOINCREMENT, tree_id TEXT, rule TEXT, zone TEXT, limit_id TEXT, passed BOOLEAN, value DOUBLE, threshold DOUBLE, weight TEXT, triggers TEXT, works TEXT, formula TEXT, source TEXT, source_place TEXT, status TEXT);
CREATE TABLE anchorage (fid INTEGER PRIMARY KEY AUTOINCREMENT, tree_id TEXT, kept_low DOUBLE, kept_best DOUBLE, kept_high DOUBLE, worst_from_deg DOUBLE, by_direction TEXT, circumference_cut DOUBLE, area_cut DOUBLE, nearest_cut_m DOUBLE, outside_tests BOOLEAN, reasons_to_inspect TEXT, works TEXT, formula TEXT, source TEXT, source_place TEXT, status TEXT);
CREATE TABLE verdicts (fid INTEGER PRIMARY KEY AUTOINCREMENT, geom POINT, tree_id TEXT, label TEXT, botanical_name TEXT, common_name TEXT, verdict TEXT, vitality_concern TEXT, stability_concern TEXT, root_loss_low DOUBLE, root_loss_best DOUBLE, root_loss_high DOUBLE, anchorage_kept_low DOUBLE, anchorage_kept_best DOUBLE, anchorage_kept_high DOUBLE, reasons TEXT, measures TEXT, missing TEXT, notes TEXT);
DELETE FROM sqlite_sequence;
INSERT INTO sqlite_sequence VALUES('settings',27);
INSERT INTO sqlite_sequence VALUES('journal',6);
INSERT INTO sqlite_sequence VALUES('trees',2);
INSERT INTO sqlite_sequence VALUES('stems',2);
INSERT INTO sqlite_sequence VALUES('flares',1);
INSERT INTO sqlite_sequence VALUES('imports',4);
INSERT INTO sqlite_sequence VALUES('works',2);
INSERT INTO sqlite_sequence VALUES('evidence_pits',1);
INSERT INTO sqlite_sequence VALUES('evidence_roots',2);
INSERT INTO sqlite_sequence VALUES('soils',2);
INSERT INTO sqlite_sequence VALUES('soil_layers',4);
INSERT INTO sqlite_sequence VALUES('wind',1);
CREATE TRIGGER journal_is_never_changed BEFORE UPDATE ON journal
BEGIN SELECT RAISE(ABORT, 'the journal is only added to'); END;
CREATE TRIGGER journal_is_never_shortened BEFORE DELETE ON journal
BEGIN SELECT RAISE(ABORT, 'the journal is only added to'); END;
COMMIT;
