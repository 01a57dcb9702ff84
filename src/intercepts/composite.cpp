#include "intercepts/composite.h"

#include "intercepts/strands.h"

#include <algorithm>

namespace selvage::intercepts {

namespace {

// Under this share of the stretch the rest counts as zero: a fifth unsampled is no longer a gap of logging.
constexpr double least_sampled_share = 0.8;

// A part of a sample inside the stretch that no sample before it covers.
struct Part {
    const tables::Assay* sample = nullptr;
    double length = 0.0;  // m
};

// Parts of the primary samples that `counts` chooses, from the top; together never longer than the stretch.
template <typename Counts>
std::vector<Part> parts_of(const std::vector<const tables::Assay*>& samples, double from, double to, Counts counts) {
    std::vector<const tables::Assay*> chosen;
    for (const tables::Assay* sample : samples)
        if (sample->type == tables::SampleType::primary && sample->from && sample->to && counts(*sample))
            chosen.push_back(sample);
    std::stable_sort(chosen.begin(), chosen.end(),
                     [](const tables::Assay* a, const tables::Assay* b) { return *a->from < *b->from; });
    std::vector<Part> parts;
    double covered = from;
    for (const tables::Assay* sample : chosen) {
        const double top = std::max(*sample->from, covered);
        const double end = std::min(*sample->to, to);
        if (end <= top) continue;
        parts.push_back({sample, end - top});
        covered = end;
    }
    return parts;
}

double length_of(const std::vector<Part>& parts) {
    double length = 0.0;
    for (const Part& part : parts) length += part.length;
    return length;
}

bool is_assayed(const tables::Assay& sample, std::size_t analyte) {
    return sample.status == tables::SampleStatus::final_result && analyte < sample.values.size() && sample.values[analyte].value;
}

std::vector<Part> assayed_parts(const std::vector<const tables::Assay*>& samples, double from, double to, std::size_t analyte) {
    return parts_of(samples, from, to, [&](const tables::Assay& sample) { return is_assayed(sample, analyte); });
}

// Length of the stretch that no sample covers, whatever became of it.
double unsampled_length(const std::vector<const tables::Assay*>& samples, double from, double to) {
    const double rest = (to - from) - length_of(parts_of(samples, from, to, [](const tables::Assay&) { return true; }));
    return rest > same_depth ? rest : 0.0;
}

// Length-weighted mean over the parts whose sample has a density; 1 where none has.
double mean_density(const std::vector<Part>& parts) {
    double mass = 0.0, length = 0.0;
    for (const Part& part : parts)
        if (part.sample->density) {
            mass += part.length * *part.sample->density;
            length += part.length;
        }
    return length > 0.0 ? mass / length : 1.0;
}

SampledState sampled_state(const std::vector<const tables::Assay*>& samples, double from, double to, double assayed) {
    if (assayed > 0.0) return (to - from) - assayed <= same_depth ? SampledState::assayed : SampledState::part_assayed;
    const auto waits = [](const tables::Assay& sample) { return sample.status != tables::SampleStatus::final_result; };
    return parts_of(samples, from, to, waits).empty() ? SampledState::not_sampled : SampledState::pending;
}

}  // namespace

std::optional<Grade> mean_grade(const std::vector<const tables::Assay*>& samples, double from, double to, std::size_t analyte,
                                bool weight_by_density, bool gaps_are_zero) {
    const std::vector<Part> parts = assayed_parts(samples, from, to, analyte);
    if (parts.empty()) return std::nullopt;
    const double usual_density = weight_by_density ? mean_density(parts) : 1.0;
    Grade grade;
    grade.below_detection = true;
    double metal = 0.0, weight = 0.0;
    for (const Part& part : parts) {
        const tables::AssayValue& assay = part.sample->values[analyte];
        const double own = part.length * (weight_by_density ? part.sample->density.value_or(usual_density) : 1.0);
        metal += own * *assay.value;
        weight += own;
        grade.over_limit = grade.over_limit || assay.over_limit;
        grade.below_detection = grade.below_detection && assay.below_detection;
    }
    if (gaps_are_zero) weight += usual_density * unsampled_length(samples, from, to);
    grade.value = metal / weight;
    return grade;
}

Composite composite(const std::vector<const tables::Assay*>& samples, double from, double to, std::size_t analyte_count,
                    const settings::CompositeRules& rules) {
    Composite out;
    const double assayed = length_of(assayed_parts(samples, from, to, 0));
    out.sampled_share = to > from ? std::min(1.0, assayed / (to - from)) : 0.0;
    out.state = sampled_state(samples, from, to, assayed);
    const bool zero = rules.unsampled_is_zero && out.sampled_share < least_sampled_share;
    out.unsampled_as_zero = zero && assayed > 0.0 && unsampled_length(samples, from, to) > 0.0;
    for (std::size_t analyte = 0; analyte < analyte_count; ++analyte)
        out.grades.push_back(mean_grade(samples, from, to, analyte, rules.weight_by_density, zero));
    return out;
}

}  // namespace selvage::intercepts
