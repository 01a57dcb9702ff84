#include "history/run_record.h"

#include <fmt/format.h>

#include <cmath>
#include <optional>
#include <variant>

namespace selvage::history {

namespace {

const base::Check unreadable = {"run-record-unreadable", base::Severity::warning,
                                "The record of an earlier run cannot be read; its forecasts are not carried on.",
                                "Name the folder of a whole pack, or leave the earlier pack as it was written."};
const base::Check unknown_format = {"run-record-format-unknown", base::Severity::warning,
                                    "The record of an earlier run has a form that this version does not know; its forecasts are "
                                    "not carried on.",
                                    "Use the version that wrote it, or a newer one."};

// Form 1: an array of objects, each with the hole and vein that it speaks of.
std::optional<std::vector<base::JsonValue>> forecasts_of_form_1(const base::JsonValue& record) {
    const base::JsonValue* forecasts = base::member(record, "forecasts");
    if (forecasts == nullptr || !std::holds_alternative<base::JsonArray>(forecasts->value)) return std::nullopt;
    const auto& all = std::get<base::JsonArray>(forecasts->value);
    for (const base::JsonValue& one : all)
        if (base::member(one, "hole") == nullptr || base::member(one, "vein") == nullptr) return std::nullopt;
    return all;
}

}  // namespace

base::Checked<std::vector<base::JsonValue>> forecasts_of(std::string_view run_record, const std::string& source) {
    const base::JsonValue record = base::json_from(run_record);
    const base::JsonValue* format = base::member(record, "format");
    const double* number = format == nullptr ? nullptr : std::get_if<double>(&format->value);
    const base::Origin origin = {"project", source, 0};
    if (number == nullptr) return {{}, {{&unreadable, origin, "", "is not the record of a run; no forecasts are carried on"}}};
    if (*number != record_format)
        return {{},
                {{&unknown_format, origin, "",
                  fmt::format("has form {}, known is {}; no forecasts are carried on", *number, record_format)}}};
    if (auto forecasts = forecasts_of_form_1(record)) return {std::move(*forecasts), {}};
    return {{}, {{&unreadable, origin, "", "holds no list of forecasts; none are carried on"}}};
}

const std::vector<const base::Check*>& checks() {
    static const std::vector<const base::Check*> all = {&unreadable, &unknown_format};
    return all;
}

}  // namespace selvage::history
