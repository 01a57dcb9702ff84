#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

// JSON as a value, members in the order in which they were put.
namespace selvage::base {

struct JsonValue;
using JsonArray = std::vector<JsonValue>;
using JsonObject = std::vector<std::pair<std::string, JsonValue>>;

struct JsonValue {
    std::variant<std::nullptr_t, bool, double, std::string, JsonArray, JsonObject> value = nullptr;

    JsonValue() = default;
    JsonValue(bool v) : value(v) {}
    JsonValue(double v) : value(v) {}
    JsonValue(std::size_t v) : value(static_cast<double>(v)) {}
    JsonValue(int v) : value(static_cast<double>(v)) {}
    JsonValue(const char* v) : value(std::string(v)) {}
    JsonValue(std::string v) : value(std::move(v)) {}
    JsonValue(JsonArray v) : value(std::move(v)) {}
    JsonValue(JsonObject v) : value(std::move(v)) {}
};

// Member of an object, or nullptr.
const JsonValue* member(const JsonValue& object, std::string_view name);

// Two blanks an indent, line feed at the end; numbers in their shortest exact form, NaN and infinity as null.
std::string json_text(const JsonValue& value);
// The value of a text; null where it is not JSON.
JsonValue json_from(std::string_view text);

}  // namespace selvage::base
