#pragma once

#include "drawing/style.h"
#include "faults/fault.h"
#include "settings/project.h"

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
// Every sheet that plans a hole; `holes` are named at its head where there are at most three.
std::string planned_hole_caution(const std::vector<std::string>& holes);
// The caution in full: who clears what, and what goes before the document ("This card").
std::vector<std::string> safety_cautions(const std::string& document);
// A hole's card: of a planned one that its position is planned, of an active one that what lies ahead is foretold.
std::string card_caution(const std::string& hole, bool is_active);
// The same, and the caution in full, for the back of the card.
std::vector<std::string> drill_site_cautions(const std::string& hole, bool is_active);
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
