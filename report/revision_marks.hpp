// Revisions on a drawing: clouds round what changed, each with its mark, and the table in the
// column of the sheet. Private to the report room.
#pragma once

#include "engine/site/site.hpp"
#include "report/pen.hpp"
#include "report/revision_history.hpp"
#include "report/view.hpp"

namespace rootstead {

// A scalloped line round the ground of every work, barrier, surface and tree that came, went or
// changed, at some distance from it; neighbours share one. Element "cloud". At the highest point of
// each stands its mark, a triangle on a double base with the revision, element "revision-mark".
// Returns how many clouds there are.
std::size_t draw_clouds(layout::Pen& pen, const View& view, const RevisionHistory& history);

// The revision table: the newest state at the head, four at most, and what the clouds are about.
// Without a history the one row of the settings.
double revision_height(const RevisionHistory* history);  // mm
void draw_revisions(layout::Pen& pen, const layout::Rect& box, const ProjectSettings& settings,
                    const RevisionHistory* history);

}  // namespace rootstead
