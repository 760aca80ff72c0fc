// Note: a numbered caution that travels inside a result. It never stops a computation; it says
// what a reader must know to use the figure. Numbers never change meaning once released.
#pragma once

#include <cstdint>
#include <string>

namespace rootstead {

enum class NoteCode : std::uint16_t {
  // survey
  position_missing = 100,
  position_error_large = 101,
  diameter_missing = 102,
  diameter_doubtful = 103,
  height_doubtful = 104,
  crown_missing = 105,
  crown_filled = 106,
  species_missing = 107,
  basal_diameter_estimated = 108,
  measuring_height_differs = 109,
  girth_suspected = 110,
  tree_inside_building = 111,
  tree_inside_paving = 112,
  flare_buried = 113,
  outside_site = 114,
  tag_missing = 115,
  tree_dead = 116,
  crown_doubtful = 117,
  form_unknown = 118,
  height_filled = 119,
  density_filled = 120,
  date_doubtful = 121,
  evidence_tree_unknown = 122,
  root_doubtful = 123,
  root_thinner_than_counted = 124,
  soil_doubtful = 125,
  wind_doubtful = 126,
  flare_doubtful = 150,
  vehicle_doubtful = 151,
  climate_doubtful = 152,
  outside_boundary = 153,
  gate_doubtful = 154,
  date_missing = 155,
  clear_trunk_doubtful = 156,
  // reading a source
  value_unreadable = 140,
  word_unknown = 141,
  tag_duplicate = 142,
  coordinates_swapped = 143,
  coordinates_transformed = 144,
  shape_doubtful = 145,
  not_taken = 146,
  text_recoded = 147,
  assumed_in_reading = 148,
  // rules
  rule_not_for_growth_form = 200,
  rule_capped = 201,
  rule_raised_to_minimum = 202,
  rule_from_memory = 203,
  rule_zone_redrawn = 204,
  class_choice_ours = 205,
  outside_rule_domain = 206,
  rule_chosen_by_default = 207,
  // roots and anchorage
  first_estimate = 300,
  barriers_not_modelled = 301,
  palm_model = 302,
  diameter_outside_tests = 303,
  anchorage_override = 304,
  depth_assumed = 305,
  architecture_assumed = 306,
  tolerance_assumed = 307,
  root_estimate = 308,
  hindered_roots = 309,
  evidence_used = 310,
  evidence_not_used = 311,
  roots_measured = 320,
  anchorage_restricted = 321,
  safety_is_a_band = 322,
  no_safety = 323,
  // works
  width_assumed = 400,
  existing_work_near = 401,
  shape_missing = 402,
  measure_doubtful = 403,
  // levels
  levels_overlap = 500,
  levels_offset = 501,
  levels_unit_doubtful = 502,
  levels_datum_unknown = 503,
  levels_not_covering = 504,
  levels_one_missing = 505,
  levels_no_breaklines = 506,
  levels_not_taken = 507,
  levels_works = 508,
  levels_zone_missing = 509,
  // soil
  vehicle_unknown = 520,
  vehicle_filled = 521,
  contact_doubtful = 522,
  plates_taken_as_stiff = 523,
  strength_assumed = 524,
  cover_not_enough = 525,
  fill_texture_unknown = 526,
  fill_evidence_disagrees = 527,
  texture_assumed = 528,
  density_tables_disagree = 529,
  indicators_disagree = 530,
  // water
  water_demand_assumed = 540,
  water_not_held = 541,
  water_no_stem_rule = 542,
  water_crown_missing = 543,
  water_ground_assumed = 544,
  water_not_needed = 545,
  // existing damage and monitoring
  damage_date_unknown = 550,
  recovery_not_credited = 551,
  damage_not_drawn = 552,
  works_end_assumed = 553,
  hold_point_undated = 554,
  // moving trees
  ball_refused = 560,
  history_assumed = 561,
  calliper_estimated = 562,
  weight_incomplete = 563,
  recovery_untold = 564,
  wide_load = 565,
  trunk_width_assumed = 566,
  monocot_moving_unknown = 567,
  moving_not_advised = 568,
  // root cuts and bores
  cut_nearness_unknown = 600,
  cut_depth_assumed = 601,
  cut_rule_from_memory = 602,
  palm_kind_unknown = 603,
  auger_row_chosen = 604,
  bore_pit_not_clear = 605,
  bore_clearance_missing = 606,
  slope_takes_roots = 607,
  // root crown
  taper_is_assumed = 610,
  girdling_outside_study = 611,
  flare_signs_disagree = 612,
  flare_depth_capped = 613,
  // protection on site
  main_rule_not_applied = 580,
  load_assumed = 581,
  boundary_unknown = 582,
  line_left_to_the_site = 583,
  // replacement
  table_row_odd = 620,
  palm_by_stem_diameter = 621,
  total_is_a_least = 622,
  allowance_base_partial = 623,
  allowance_order_ours = 624,
  fee_by_pattern = 625,
  measured_otherwise = 626,
  // how sure a verdict is
  few_draws_differ = 990,
  sureness_undecided = 991,
};

struct Note {
  NoteCode code = NoteCode::root_estimate;
  std::string subject;  // tree, work or figure
  std::string text;     // one sentence
};

}  // namespace rootstead
