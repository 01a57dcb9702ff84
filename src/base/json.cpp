#include "base/json.h"

#include <nlohmann/json.hpp>

#include <cmath>
#include <cstdint>

namespace selvage::base {

namespace {

using Json = nlohmann::ordered_json;

Json library_value(const JsonValue& value);

struct ToLibrary {
    Json operator()(std::nullptr_t) const { return nullptr; }
    Json operator()(bool v) const { return v; }
    Json operator()(double v) const {
        if (!std::isfinite(v)) return nullptr;
        if (v == std::floor(v) && std::abs(v) < 1e15) return static_cast<std::int64_t>(v);
        return v;
    }
    Json operator()(const std::string& v) const { return v; }
    Json operator()(const JsonArray& v) const {
        Json out = Json::array();
        for (const JsonValue& item : v) out.push_back(library_value(item));
        return out;
    }
    Json operator()(const JsonObject& v) const {
        Json out = Json::object();
        for (const auto& [name, item] : v) out[name] = library_value(item);
        return out;
    }
};

Json library_value(const JsonValue& value) { return std::visit(ToLibrary(), value.value); }

JsonValue our_value(const Json& json) {
    if (json.is_boolean()) return json.get<bool>();
    if (json.is_number()) return json.get<double>();
    if (json.is_string()) return json.get<std::string>();
    if (json.is_array()) {
        JsonArray out;
        for (const Json& item : json) out.push_back(our_value(item));
        return out;
    }
    if (json.is_object()) {
        JsonObject out;
        for (const auto& [name, item] : json.items()) out.emplace_back(name, our_value(item));
        return out;
    }
    return {};
}

}  // namespace

const JsonValue* member(const JsonValue& object, std::string_view name) {
    const auto* members = std::get_if<JsonObject>(&object.value);
    if (members == nullptr) return nullptr;
    for (const auto& [key, value] : *members)
        if (key == name) return &value;
    return nullptr;
}

std::string json_text(const JsonValue& value) {
    return library_value(value).dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

JsonValue json_from(std::string_view text) {
    const Json json = Json::parse(text, nullptr, false);
    return json.is_discarded() ? JsonValue() : our_value(json);
}

}  // namespace selvage::base
