// Codes of the cautions about routes and smallest changes.
#pragma once

#include "engine/base/note.hpp"

namespace rootstead::route_notes {

inline constexpr NoteCode prices_assumed{920}, drawn_line_blocked{921}, no_better_route{922},
    hand_digging_credited{923}, change_not_proved{925}, change_confirmed_otherwise{926},
    method_not_applicable{927};

}  // namespace rootstead::route_notes
