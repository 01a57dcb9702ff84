#include "gis/solid_reading.h"

#include <cstdint>
#include <cstring>
#include <optional>
#include <utility>

namespace selvage::gis {

namespace {

enum class PlyForm { text, little_endian, big_endian };

struct PlyProperty {
    std::string name, type, count_type;  // count_type: of a list
};

struct PlyElement {
    std::string name;
    double count = 0.0;
    std::vector<PlyProperty> properties;
};

// Values of a PLY file one after another, in any of its forms.
class PlyValues {
public:
    PlyValues(std::string_view body, PlyForm form) : body_(body), words_(body), form_(form) {}

    double next(const std::string& type) {
        if (form_ == PlyForm::text) return number_of(words_.next());
        if (type == "char" || type == "int8") return binary<std::int8_t>();
        if (type == "uchar" || type == "uint8") return binary<std::uint8_t>();
        if (type == "short" || type == "int16") return binary<std::int16_t>();
        if (type == "ushort" || type == "uint16") return binary<std::uint16_t>();
        if (type == "int" || type == "int32") return binary<std::int32_t>();
        if (type == "uint" || type == "uint32") return binary<std::uint32_t>();
        if (type == "float" || type == "float32") return static_cast<double>(binary<float>());
        return binary<double>();
    }
    bool ran_out() const { return ran_out_; }

private:
    template <typename T>
    T binary() {
        char bytes[sizeof(T)];
        if (at_ + sizeof(T) > body_.size()) {
            ran_out_ = true;
            return T{};
        }
        std::memcpy(bytes, body_.data() + at_, sizeof(T));
        at_ += sizeof(T);
        if (form_ == PlyForm::big_endian) std::reverse(bytes, bytes + sizeof(T));
        T value;
        std::memcpy(&value, bytes, sizeof(T));
        return value;
    }
    std::string_view body_;
    Words words_;
    PlyForm form_;
    std::size_t at_ = 0;
    bool ran_out_ = false;
};

bool is_ply_type(const std::string& type) {
    static const std::array<const char*, 16> types = {"char",   "int8",    "uchar",  "uint8",  "short", "int16",
                                                      "ushort", "uint16",  "int",    "int32",  "uint",  "uint32",
                                                      "float",  "float32", "double", "float64"};
    return std::find(types.begin(), types.end(), type) != types.end();
}

struct PlyHead {
    PlyForm form = PlyForm::text;
    std::vector<PlyElement> elements;
    std::size_t length = 0;  // bytes
};

std::optional<PlyHead> ply_head(std::string_view text, SolidReading& reading) {
    PlyHead head;
    Words words(text);
    const auto wrong = [&](const std::string& what) {
        reading.refuse(what);
        return std::nullopt;
    };
    if (const auto line = words.line(); line.size() != 1 || line[0] != "ply") return wrong("it does not begin with ply");
    while (!words.at_end()) {
        const std::vector<std::string_view> line = words.line();
        if (line.empty() || line[0] == "comment" || line[0] == "obj_info") continue;
        if (line[0] == "end_header") {
            head.length = words.place();
            return head;
        }
        if (line[0] == "format" && line.size() > 1) {
            if (line[1] != "ascii" && line[1] != "binary_little_endian" && line[1] != "binary_big_endian")
                return wrong("its format is not known");
            head.form = line[1] == "ascii"                  ? PlyForm::text
                        : line[1] == "binary_little_endian" ? PlyForm::little_endian
                                                            : PlyForm::big_endian;
        } else if (line[0] == "element" && line.size() == 3) {
            head.elements.push_back({std::string(line[1]), number_of(line[2]), {}});
            if (!(head.elements.back().count >= 0.0 && head.elements.back().count < most_items))
                return wrong("a count of its head cannot be read");
        } else if (line[0] == "property" && !head.elements.empty() &&
                   (line.size() == 3 || (line.size() == 5 && line[1] == "list"))) {
            const bool list = line.size() == 5;
            PlyProperty property{std::string(line.back()), std::string(line[list ? 3 : 1]), list ? std::string(line[2]) : ""};
            if (!is_ply_type(property.type) || (list && !is_ply_type(property.count_type)))
                return wrong("its head names a type that is not known");
            head.elements.back().properties.push_back(std::move(property));
        } else {
            return wrong("a line of its head cannot be read");
        }
    }
    return wrong("its head has no end");
}

}  // namespace

void read_ply(std::string_view text, SolidReading& reading) {
    const std::optional<PlyHead> head = ply_head(text, reading);
    if (!head) return;
    PlyValues values(text.substr(head->length), head->form);
    for (const PlyElement& element : head->elements)
        for (double item = 0.0; item < element.count && reading.wrong.empty(); ++item) {
            std::array<double, 3> at{not_a_number, not_a_number, not_a_number};
            std::vector<double> corners;
            for (const PlyProperty& property : element.properties) {
                std::vector<double> list;
                const double count = property.count_type.empty() ? 1.0 : values.next(property.count_type);
                if (!(count >= 0.0 && count < most_items)) return reading.refuse("it is cut short");
                for (double i = 0.0; i < count && !values.ran_out(); ++i) list.push_back(values.next(property.type));
                if (values.ran_out()) return reading.refuse("it is cut short");
                for (std::size_t axis = 0; axis < 3; ++axis)
                    if (property.name == std::string(1, "xyz"[axis]) && list.size() == 1) at[axis] = list[0];
                if (property.name == "vertex_indices" || property.name == "vertex_index") corners = std::move(list);
            }
            if (element.name == "vertex") reading.add_point(at);
            if (element.name == "face") reading.add_face(corners);
        }
}

}  // namespace selvage::gis
