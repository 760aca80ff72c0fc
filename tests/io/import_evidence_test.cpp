// Trial pits and the roots found in them, from tables, GIS files and drawings.
#include "tests/io/import_support.hpp"

namespace rootstead::io {
namespace {

class EvidenceSource : public Sources {
 protected:
  static ImportOptions options() {
    ImportOptions options;
    options.as = "evidence";
    return options;
  }
  Import taken(const std::string& name, const std::string& content,
               const ImportOptions& how = options()) const {
    auto import = read(name, content, how);
    EXPECT_TRUE(import) << import.error().sentence();
    return import ? std::move(import).value() : Import{};
  }
};

constexpr const char* kHead =
    "pit,kind,tree,easting,northing,width (m),depth (mm),counted from (mm),root diameter (mm),"
    "root depth (mm),root x,root y,alive,date,seen by,notes\n";

TEST_F(EvidenceSource, gives_one_opening_for_all_rows_of_a_pit) {
  const Import import =
      taken("pits.csv", std::string(kHead) +
                            "P1,pit,T17,530000,180000,0.6,700,25,35,250,530000.1,180000.2,yes,"
                            "2026-03-04,A. Reed,clay below\n"
                            "P1,,,,,,,,60,400,,,no,,,\n"
                            "P2,air trench,T18,530010,180000,,800,,,,,,,2026-03-05,A. Reed,\n");
  ASSERT_EQ(import.evidence.size(), 2U) << sentences(import);
  EXPECT_EQ(import.kind, "evidence");
  EXPECT_EQ(import.rows_read, 3U);
  const Evidence& pit = import.evidence[0];
  EXPECT_EQ(pit.id, "P1");
  EXPECT_EQ(pit.kind, EvidenceKind::pit);
  EXPECT_EQ(pit.tree, "T17");
  ASSERT_EQ(pit.shape.points.size(), 1U);
  EXPECT_EQ(pit.shape.points[0], (Point{530000, 180000}));
  EXPECT_EQ(to_text(*pit.width), "0.6 m");
  EXPECT_EQ(to_text(*pit.depth), "700 mm");
  EXPECT_EQ(to_text(pit.counted_from), "25 mm");
  EXPECT_EQ(pit.date, "2026-03-04");
  EXPECT_EQ(pit.seen_by, "A. Reed");
  EXPECT_EQ(pit.notes, "clay below");
  EXPECT_EQ(pit.origin.place, "row 2");
  ASSERT_EQ(pit.roots.size(), 2U);
  EXPECT_EQ(to_text(pit.roots[0].diameter), "35 mm");
  EXPECT_EQ(to_text(*pit.roots[0].depth), "250 mm");
  EXPECT_EQ(*pit.roots[0].at, (Point{530000.1, 180000.2}));
  EXPECT_TRUE(pit.roots[0].alive);
  EXPECT_FALSE(pit.roots[1].at);
  EXPECT_FALSE(pit.roots[1].alive);
  const Evidence& trench = import.evidence[1];
  EXPECT_EQ(trench.kind, EvidenceKind::air_trench);
  EXPECT_TRUE(trench.roots.empty());
  EXPECT_EQ(to_text(trench.counted_from), "20 mm");
  EXPECT_FALSE(trench.width);
  EXPECT_TRUE(import.problems.empty()) << sentences(import);
}

TEST_F(EvidenceSource, takes_headers_of_five_languages) {
  const char* const kTables[] = {
      "trial pit,type,tree no,x,y,pit depth (cm),root diameter (cm),root depth (cm),alive\n"
      "1,trial pit,7,530000,180000,60,3.5,25,yes\n",
      "Schurf,Art,Baum Nr,Rechtswert,Hochwert,Tiefe (cm),Wurzeldurchmesser (cm),"
      "Wurzeltiefe (cm),lebend\n1,Suchschacht,7,530000,180000,60,3.5,25,ja\n",
      "sondage,nature,arbre,coord x,coord y,profondeur (cm),diam\xC3\xA8tre racine (cm),"
      "profondeur racine (cm),vivante\n1,fosse,7,530000,180000,60,\"3,5\",25,oui\n",
      "cata,tipo,\xC3\xA1rbol,coordenada x,coordenada y,profundidad (cm),di\xC3\xA1metro raiz (cm),"
      "profundidad raiz (cm),viva\n1,calicata,7,530000,180000,60,\"3,5\",25,si\n",
      "proefkuil,soort,boom,rd x,rd y,diepte (cm),worteldiameter (cm),worteldiepte (cm),levend\n"
      "1,proefgat,7,530000,180000,60,\"3,5\",25,ja\n"};
  for (const char* table : kTables) {
    const Import import = taken("a.csv", table);
    ASSERT_EQ(import.evidence.size(), 1U) << table << sentences(import);
    const Evidence& pit = import.evidence[0];
    EXPECT_EQ(pit.id, "1") << table;
    EXPECT_EQ(pit.kind, EvidenceKind::pit) << table;
    EXPECT_EQ(pit.tree, "7") << table;
    EXPECT_EQ(to_text(*pit.depth), "60 cm") << table;
    ASSERT_EQ(pit.roots.size(), 1U) << table;
    EXPECT_EQ(to_text(pit.roots[0].diameter), "3.5 cm") << table;
    EXPECT_EQ(to_text(*pit.roots[0].depth), "25 cm") << table;
    EXPECT_TRUE(import.problems.empty()) << table << sentences(import);
  }
}

TEST_F(EvidenceSource, takes_a_length_unit_for_the_roots_and_asks_for_the_rest) {
  const std::string table = "pit,x,y,root diameter\nP1,530000,180000,35\n";
  const auto asked = read("a.csv", table, options());
  ASSERT_FALSE(asked);
  EXPECT_EQ(asked.error().code, Code::unit_missing);
  ImportOptions answered = options();
  answered.length_unit = LengthUnit::millimetre;
  EXPECT_EQ(to_text(taken("a.csv", table, answered).evidence.at(0).roots.at(0).diameter), "35 mm");
}

TEST_F(EvidenceSource, takes_several_roots_of_one_cell) {
  const Import import =
      taken("a.csv", "pit,kind,x,y,root diameter,alive\nP1,pit,530000,180000,25+40+60 mm,no\n");
  ASSERT_EQ(import.evidence.at(0).roots.size(), 3U);
  EXPECT_EQ(to_text(import.evidence[0].roots[2].diameter), "60 mm");
  EXPECT_FALSE(import.evidence[0].roots[2].alive);
}

TEST_F(EvidenceSource, brings_degrees_to_the_grid_for_pits_and_roots) {
  const Import import = taken("a.csv",
                              "pit,kind,lat,lon,root diameter (mm),root lon,root lat\n"
                              "P1,pit,51.503,-0.128,35,-0.12799,51.50301\n");
  ASSERT_EQ(import.evidence.at(0).shape.points.size(), 1U) << sentences(import);
  const Point pit = import.evidence[0].shape.points[0];
  const Point root = *import.evidence[0].roots.at(0).at;
  EXPECT_NEAR(pit.x, 530000, 200);
  EXPECT_NEAR(pit.y, 180000, 500);
  EXPECT_NEAR(root.x - pit.x, 0.69, 0.05);
  EXPECT_NEAR(root.y - pit.y, 1.11, 0.05);
}

TEST_F(EvidenceSource, reads_another_place_in_a_later_row_as_that_of_its_root) {
  const Import import = taken("a.csv",
                              "pit,kind,x,y,root diameter (mm)\nP1,pit,530000,180000,\n"
                              "P1,,530000.2,180000.1,35\n");
  const Evidence& pit = import.evidence.at(0);
  EXPECT_EQ(pit.shape.points.at(0), (Point{530000, 180000}));
  EXPECT_EQ(*pit.roots.at(0).at, (Point{530000.2, 180000.1}));
  EXPECT_TRUE(says(import, NoteCode::assumed_in_reading, "place of the root"));
}

TEST_F(EvidenceSource, keeps_the_first_where_rows_of_a_pit_disagree) {
  const Import import = taken("a.csv",
                              "pit,kind,tree,x,y,depth (m),counted from (mm)\n"
                              "P1,pit,T1,530000,180000,0.6,20\n"
                              "P1,air trench,T2,530009,180000,0.9,25\n");
  const Evidence& pit = import.evidence.at(0);
  EXPECT_EQ(pit.tree, "T1");
  EXPECT_EQ(pit.kind, EvidenceKind::pit);
  EXPECT_EQ(to_text(*pit.depth), "0.6 m");
  EXPECT_EQ(to_text(pit.counted_from), "20 mm");
  EXPECT_EQ(count_of(import, NoteCode::value_unreadable), 5U) << sentences(import);
  EXPECT_TRUE(says(import, NoteCode::value_unreadable,
                   "a.csv row 3, opening P1: the depth \"0.9 m\" is not that of its first row, row "
                   "2; the first is kept"));
}

TEST_F(EvidenceSource, is_guessed_from_its_headers) {
  const Import import =
      taken("a.csv", "pit,kind,x,y,root diameter (mm)\nP1,pit,530000,180000,35\n", {});
  EXPECT_EQ(import.kind, "evidence");
  EXPECT_EQ(import.evidence.size(), 1U);
}

TEST_F(EvidenceSource, of_shapes_in_text_is_a_line_or_an_outline) {
  const Import import = taken("a.csv",
                              "id,depth (m),wkt\nL1,0.8,\"LINESTRING (530000 180000, 530004 "
                              "180000)\"\nA1,0.8,\"POLYGON ((530000 180000, 530001 180000, 530001 "
                              "180001, 530000 180000))\"\n");
  ASSERT_EQ(import.evidence.size(), 2U) << sentences(import);
  EXPECT_EQ(import.evidence[0].kind, EvidenceKind::air_trench);
  EXPECT_EQ(import.evidence[0].shape.lines.size(), 1U);
  EXPECT_EQ(import.evidence[1].kind, EvidenceKind::pit);
  EXPECT_EQ(import.evidence[1].shape.areas.size(), 1U);
  EXPECT_TRUE(says(import, NoteCode::assumed_in_reading, "it is read as an air trench"));
}

TEST_F(EvidenceSource, of_a_single_dug_root_stands_where_its_opening_is) {
  const Import import =
      taken("a.csv", "kind,x,y,root diameter (mm)\nroot,530000,180000,35\nroot,530001,180000,45\n");
  ASSERT_EQ(import.evidence.size(), 2U);
  EXPECT_EQ(import.evidence[1].id, "row-3");
  EXPECT_EQ(*import.evidence[1].roots.at(0).at, (Point{530001, 180000}));
}

TEST_F(EvidenceSource, of_a_gis_file_has_points_lines_and_areas) {
  const char* features = R"({"type":"FeatureCollection",
    "crs":{"type":"name","properties":{"name":"urn:ogc:def:crs:EPSG::27700"}},"features":[
    {"type":"Feature","properties":{"pit":"P1","kind":"pit","tree":"T1","depth_mm":600},
     "geometry":{"type":"Polygon","coordinates":[[[530000,180000],[530001,180000],[530001,180001],[530000,180001],[530000,180000]]]}},
    {"type":"Feature","properties":{"pit":"P1","root_diameter_mm":35,"root_depth_mm":200},
     "geometry":{"type":"Point","coordinates":[530000.5,180000.5]}},
    {"type":"Feature","properties":{"pit":"A1","kind":"air trench","depth_mm":800},
     "geometry":{"type":"LineString","coordinates":[[530005,180000],[530009,180000]]}},
    {"type":"Feature","properties":{"pit":"P3","kind":"pit","depth_mm":500},
     "geometry":{"type":"Point","coordinates":[530015,180000]}}]})";
  const Import import = taken("pits.geojson", features);
  ASSERT_EQ(import.evidence.size(), 3U) << sentences(import);
  EXPECT_EQ(import.rows_read, 4U);
  EXPECT_EQ(import.evidence[0].shape.areas.size(), 1U);
  ASSERT_EQ(import.evidence[0].roots.size(), 1U);
  EXPECT_EQ(*import.evidence[0].roots[0].at, (Point{530000.5, 180000.5}));
  EXPECT_EQ(import.evidence[1].shape.lines.size(), 1U);
  EXPECT_EQ(import.evidence[2].shape.points.size(), 1U);
  EXPECT_EQ(taken("pits.geojson", features, {}).evidence.size(), 3U);  // guessed by its fields
}

TEST_F(EvidenceSource, of_a_drawing_comes_from_its_layer) {
  const std::string drawing =
      "0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n6\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n"
      "0\nPOINT\n8\nTRIAL-PIT\n10\n530000\n20\n180000\n"
      "0\nLINE\n8\nTRIAL-PIT\n10\n530005\n20\n180000\n11\n530009\n21\n180000\n"
      "0\nCIRCLE\n8\nTRIAL-PIT\n10\n530020\n20\n180000\n40\n0.5\n"
      "0\nLINE\n8\nKERB\n10\n530000\n20\n180010\n11\n530009\n21\n180010\n"
      "0\nENDSEC\n0\nEOF\n";
  const Import import = taken("pits.dxf", drawing, {});
  ASSERT_EQ(import.evidence.size(), 3U) << sentences(import);
  EXPECT_EQ(import.barriers.size(), 1U);
  EXPECT_EQ(import.evidence[0].kind, EvidenceKind::pit);
  EXPECT_EQ(import.evidence[1].kind, EvidenceKind::air_trench);
  EXPECT_EQ(import.evidence[2].shape.areas.size(), 1U);
  EXPECT_TRUE(taken("pits.dxf", drawing).barriers.empty());
}

TEST_F(EvidenceSource, blocks_where_a_root_is_lost_because_none_found_is_evidence_too) {
  for (const char* row : {"P1,530000,180000,thin,", "P1,530000,180000,,200"}) {
    const Import import =
        taken("a.csv", "pit,x,y,root diameter (mm),root depth (mm)\n" + std::string(row) + "\n");
    EXPECT_TRUE(import.evidence.at(0).roots.empty());
    EXPECT_TRUE(std::any_of(import.problems.begin(), import.problems.end(),
                            [](const Problem& problem) { return problem.blocks; }))
        << row << sentences(import);
  }
}

TEST_F(EvidenceSource, keeps_rows_that_have_no_place) {
  const Import import = taken("a.csv", "pit,kind,x,y,root diameter (mm)\nP1,pit,,,35\n");
  ASSERT_EQ(import.evidence.size(), 1U);
  EXPECT_TRUE(import.evidence[0].shape.empty());
  EXPECT_EQ(import.evidence[0].roots.size(), 1U);
}

}  // namespace
}  // namespace rootstead::io
