#pragma once

#include "drawing/style.h"
#include "faults/fault.h"
#include "settings/project.h"
#include "sheets/compose.h"

#include <cstddef>
#include <string>
#include <vector>

// The cautions, written once. Each is a whole sentence or two.
namespace selvage::sheets {

// Every sheet of the pack.
std::string working_document_caution();
// What stands in its place on drafts of public figures: who has to check and approve them, under which code.
std::string draft_caution(const settings::Disclosure& disclosure, const std::string& run_name);
// The one of the two that a pack of this style carries.
std::string head_caution(const drawing::ContentLook& content, const settings::Disclosure& disclosure,
                         const std::string& run_name);
// Every sheet that shows a modelled vein; names the faults whose slip is not given.
std::string interpretation_caution(const faults::Events& events);
// Every sheet that plans a hole; `holes` are named at its head where they are few.
std::string planned_hole_caution(const std::vector<std::string>& holes);
// The planned ones' position is planned, what lies ahead of an active one's last survey is a forecast, and both are to be
// cleared.
std::string position_caution(const std::vector<std::string>& holes, const Results& results);
// Every sheet that shows planned or active holes: which of them come too near to others, then the same. Holes that are drilled
// are passed over; empty where all are.
std::string holes_ahead_caution(const std::vector<std::string>& holes, const Results& results);
// The same of all planned and active holes, and of step-outs where there are any.
std::string holes_ahead_caution(const Results& results);
// The caution in full: who clears what, what goes before the document ("This card"), and which openings are known.
std::vector<std::string> safety_cautions(const std::string& document, const Results& results);
// For the back of a hole's card: what lies ahead of it, and the caution in full.
std::vector<std::string> drill_site_cautions(const std::string& hole, const Results& results);
// Once a pack: what a public report needs that is not here; what ranges and models are no substitute for.
std::string public_report_caution(const settings::Disclosure& disclosure);
std::string judgement_caution();
// Every sheet of a run whose input has errors or warnings, with their counts; else empty.
std::string input_caution(std::size_t errors, std::size_t warnings);
// Every sheet on which old workings are drawn or holes are planned beside them.
std::string workings_caution();
// Every sheet with lengths.
std::string thickness_caution();

}  // namespace selvage::sheets
