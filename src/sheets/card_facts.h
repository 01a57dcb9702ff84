#pragma once

#include "faults/faults_ahead.h"
#include "planning/near_holes.h"
#include "planning/on_the_way.h"
#include "sheets/compose.h"
#include "sheets/off_target.h"
#include "sheets/three_norths.h"
#include "sheets/vein_ahead.h"

#include <optional>
#include <string>
#include <vector>

// What the rig must know of one planned or active hole, gathered for its card.
namespace selvage::sheets {

// The direction that is expected at a depth, and the limits within which 8 readings of 10 should lie.
struct ExpectedDirection {
    double depth = 0.0;  // m
    base::Direction expected;
    base::Angle azimuth_off, dip_off;  // from the expected one to the limit
};

struct CardFacts {
    const tables::Collar* collar = nullptr;
    const paths::Path* path = nullptr;
    std::vector<const forecast::Pierce*> pierces;   // by depth
    std::vector<VeinAhead> veins;                   // the same, those of one vein together
    base::Direction start;                          // to be set at the collar, grid
    ThreeNorths norths;                             // of the start's azimuth
    bool steep = false;                             // too near to the vertical for an azimuth to be set
    std::string pad;                                // empty: none stands there
    double from = 0.0, to = 0.0;                    // m: still to be drilled, down to the end or the stop, whichever is deeper
    std::vector<planning::Danger> dangers;          // the most harmful
    std::vector<planning::Danger> further_dangers;  // not among them: neighbours tell
    std::vector<faults::FaultAhead> faults;         // on its way: how likely those among the dangers are
    planning::NearHoles near;
    planning::NearHoles others;                // where it comes too near to some: the same without those
    std::vector<planning::NearHole> left_out;  // holes that no model knows, where it may come near to one
    std::optional<double> leaves_property;     // m down the hole
    std::vector<ExpectedDirection> line;       // at its surveys

    bool is_active() const { return collar->status == tables::HoleStatus::active; }
};

// Their places in the list, what hurts most first: old workings and voids, then what else neighbours met but faults (water,
// gas, lost circulation, stuck rods, lost core), then faults; of each kind the most telling first.
std::vector<std::size_t> by_harm(const std::vector<planning::Danger>& dangers);

// Planned and active drill holes that have a path, in collar order.
std::vector<CardFacts> card_facts(const Results& results);

// Whether a hole gets a card, and the name by which links reach its front; empty where it has none.
std::string card_destination(const Results& results, const std::string& hole);

// How much the collar's azimuth and dip are off the straight line to the target, in a sentence.
std::string aim_off_words(const CardFacts& facts);
// Of an active hole, whether the start that its card gives was planned or is measured, without a full stop; empty for a planned
// one, and where the words on its aim-off say so.
std::string start_words(const CardFacts& facts, const Results& results);
// What forbids to set up a planned hole, or calls for steering an active one; empty: nothing.
std::string set_up_warning(const CardFacts& facts, const Results& results);
// An active hole: where it was surveyed last, and how far off its target it will pierce if it is left alone. Sentences.
std::vector<std::string> progress_words(const CardFacts& facts, const Results& results);
// "planned hole, pad P01, core NQ"
std::string hole_words(const CardFacts& facts, const base::MapFrame& map);
// "186 to 190 m", "core lost" and "core lost (AB-04), 9 m off" of a danger; "perhaps Cross Fault (chance 0.36)" of a fault that
// the expected line does not cross.
std::string danger_depths(const planning::Danger& danger, const base::MapFrame& map);
std::string danger_kind(const planning::Danger& danger, const CardFacts& facts);
std::string danger_words(const planning::Danger& danger, const CardFacts& facts, const base::MapFrame& map);
// What is known of old workings near the hole, or that it is not known.
std::string workings_words(const CardFacts& facts, const Results& results);
// The nearest of all other holes to what is still to be drilled, of those that are not too near: past the common start where it
// has one; under the clearance it can only lie where the two still part from their start. And those that it starts beside.
// Sentences; empty: none.
std::string nearest_hole_words(const CardFacts& facts, const Results& results);
std::string beside_words(const CardFacts& facts, const base::MapFrame& map);

// Where the driller stops and asks if no vein was met: past the last vein that is due, but no deeper than the hole is planned
// and the property reaches.
struct AskDepth {
    double depth = 0.0;                 // m, whole units
    std::string why;                    // "its planned end"; empty: all that is due is behind it
    std::optional<double> vein_so_far;  // m: where that cuts it short, how deep the last vein's stop would lie
};
AskDepth ask_depth(const CardFacts& facts, const Results& results);

// A vein that the hole is to meet, by depth: where to call, and where to stop and ask if it is not met. The last one's stop is
// the hole's ask depth, and none lies deeper.
struct VeinDue {
    VeinAhead ahead;
    double call = 0.0, stop = 0.0;  // m, whole units
    std::string goes_on_to;         // the next one; empty: the last
};
std::vector<VeinDue> veins_due(const CardFacts& facts, const Results& results);

// The depths of surveys down a hole: the first, then every so far, and one at the end; m. Common practice, no source: 30 m (100
// ft) or shorter.
struct SurveyInterval {
    double first = 15.0, every = 30.0;
};
SurveyInterval survey_interval(const settings::Project& project);

// "HQ, oriented from 269 m (call) on": the core size, and from where on core is oriented: the first call still to come, as no
// table gives another depth.
std::string core_words(const CardFacts& facts, const Results& results);

// What the rig does when, label and rule.
struct StopRule {
    std::string when, rule;
};
std::vector<StopRule> stop_rules(const CardFacts& facts, const Results& results);

}  // namespace selvage::sheets
