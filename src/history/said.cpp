#include "history/said.h"

#include "base/text.h"

#include <variant>

namespace selvage::history {

namespace {

std::string text_of(const base::JsonValue& object, const char* name) {
    const base::JsonValue* value = base::member(object, name);
    const auto* text = value == nullptr ? nullptr : std::get_if<std::string>(&value->value);
    return text == nullptr ? std::string() : *text;
}

std::optional<double> number_of(const base::JsonValue& object, const char* name) {
    const base::JsonValue* value = base::member(object, name);
    const auto* number = value == nullptr ? nullptr : std::get_if<double>(&value->value);
    return number == nullptr ? std::nullopt : std::optional<double>(*number);
}

bool same_name(const std::string& a, const std::string& b) { return base::folded(a) == base::folded(b); }

}  // namespace

std::string date_of(std::string_view run_record) { return text_of(base::json_from(run_record), "date"); }

std::vector<Said> said_of(const std::vector<base::JsonValue>& forecasts) {
    std::vector<Said> all;
    for (const base::JsonValue& one : forecasts) {
        const auto low = number_of(one, "depth_p10"), middle = number_of(one, "depth_p50"), high = number_of(one, "depth_p90");
        if (!low || !middle || !high) continue;
        all.push_back({text_of(one, "said"), text_of(one, "run"), text_of(one, "hole"), text_of(one, "vein"),
                       text_of(one, "block"), *low, *middle, *high, number_of(one, "presence").value_or(0.0)});
    }
    return all;
}

std::optional<Said> last_said(const EarlierRuns& earlier, const std::string& hole, const std::string& planned_as,
                              const std::string& vein) {
    std::optional<Said> last;
    for (const Said& said : earlier.said) {
        const bool of_hole = same_name(said.hole, hole) || (!planned_as.empty() && same_name(said.hole, planned_as));
        if (!of_hole || !same_name(said.vein, vein)) continue;
        if (!last || said.run != last->run || said.presence > last->presence) last = said;
    }
    return last;
}

}  // namespace selvage::history
