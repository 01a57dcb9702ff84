#pragma once

#include "intercepts/intercept.h"
#include "settings/project.h"
#include "tables/records.h"

#include <optional>
#include <vector>

// Grades over a stretch of hole from the samples that it cuts.
namespace selvage::intercepts {

struct Composite {
    SampledState state = SampledState::not_sampled;  // of the first analyte
    double sampled_share = 0.0;                      // assayed length of the first analyte over the stretch's
    bool unsampled_as_zero = false;                  // the grades count what nobody sampled as zero
    std::vector<std::optional<Grade>> grades;        // one an analyte; nothing where no sample was assayed for it
};

// Mean grade of one analyte over [from, to] (m). Samples are cut at the edges; weight = overlap, times density where asked (a
// sample without one takes the others' mean). Pending and not assayed samples carry no weight. What no sample covers weighs as
// zero grade where `gaps_are_zero`, else nothing. Of samples that overlap each other the upper one counts first. Only primary
// samples are looked at.
std::optional<Grade> mean_grade(const std::vector<const tables::Assay*>& samples, double from, double to, std::size_t analyte,
                                bool weight_by_density, bool gaps_are_zero);

// All analytes over [from, to]: what nobody sampled counts as zero where the sampled share is under 0.8 and the rules say so.
// The state is `assayed` where the first analyte is known for the whole stretch, `part assayed` for some of it; else `pending`
// where a result is still to come, else `not sampled`.
Composite composite(const std::vector<const tables::Assay*>& samples, double from, double to, std::size_t analyte_count,
                    const settings::CompositeRules& rules);

}  // namespace selvage::intercepts
