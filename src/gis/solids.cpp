#include "gis/solids.h"

#include "base/file.h"
#include "base/text.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <cstring>
#include <optional>
#include <string_view>
#include <utility>
#include <vector>

namespace selvage::gis {

namespace {

// Words of a text, one after another; everything after `#` in a line is left out.
class Words {
public:
    explicit Words(std::string_view text) : text_(text) {}

    std::string_view next() {
        skip();
        const std::size_t start = at_;
        while (at_ < text_.size() && !is_blank(text_[at_])) ++at_;
        return text_.substr(start, at_ - start);
    }
    std::vector<std::string_view> line() {
        const std::size_t end = std::min(text_.find('\n', at_), text_.size());
        Words within(text_.substr(at_, end - at_));
        at_ = std::min(end + 1, text_.size());
        std::vector<std::string_view> words;
        for (std::string_view word = within.next(); !word.empty(); word = within.next()) words.push_back(word);
        return words;
    }
    bool at_end() const { return at_ >= text_.size(); }
    std::size_t place() const { return at_; }

private:
    static bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; }
    void skip() {
        while (at_ < text_.size() && (is_blank(text_[at_]) || text_[at_] == '#'))
            at_ = text_[at_] == '#' ? std::min(text_.find('\n', at_), text_.size()) : at_ + 1;
    }
    std::string_view text_;
    std::size_t at_ = 0;
};

// A mesh while it is read; what is wrong is kept as words.
struct Reading {
    mesh::TriangleMesh mesh;
    std::string wrong;
    std::size_t faces = 0;

    void refuse(const std::string& words) {
        if (wrong.empty()) wrong = words;
    }
    void add_point(const std::array<double, 3>& at) {
        mesh.points.emplace_back(at[0], at[1], at[2]);
        if (!mesh.points.back().allFinite()) refuse("a point has a coordinate that is no number");
    }
    void add_face(const std::vector<double>& corners) {
        ++faces;
        std::vector<int> numbers;
        for (const double corner : corners) {
            if (!(corner >= 0.0 && corner < static_cast<double>(mesh.points.size())))
                return refuse("face " + std::to_string(faces) + " names a point that is not there");
            numbers.push_back(static_cast<int>(corner));
        }
        for (std::size_t i = 2; i < numbers.size(); ++i)
            if (numbers[0] != numbers[i - 1] && numbers[i - 1] != numbers[i] && numbers[0] != numbers[i])
                mesh.triangles.push_back({numbers[0], numbers[i - 1], numbers[i]});
    }
};

constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();
constexpr double most_items = 50e6;  // of a list or element: more is a broken file

double number_of(std::string_view word) { return base::parse_number(word).value_or(not_a_number); }

// OFF: the word, counts of points, faces and edges, then the points, then each face with its number of corners.
void read_off(std::string_view text, Reading& reading) {
    Words words(text);
    std::string_view first = words.next();
    if (first != "OFF") return reading.refuse("it does not begin with OFF");
    const double points = number_of(words.next()), faces = number_of(words.next());
    words.next();
    if (!(points >= 0.0 && points < most_items && faces >= 0.0 && faces < most_items))
        return reading.refuse("its counts of points and faces cannot be read");
    for (double i = 0.0; i < points && reading.wrong.empty(); ++i) {
        const double x = number_of(words.next()), y = number_of(words.next()), z = number_of(words.next());
        reading.add_point({x, y, z});
    }
    words.line();
    for (double i = 0.0; i < faces && reading.wrong.empty(); ++i) {
        std::vector<std::string_view> line = words.line();
        while (line.empty() && !words.at_end()) line = words.line();
        const double count = line.empty() ? not_a_number : number_of(line.front());
        if (!(count >= 1.0 && count < static_cast<double>(line.size()))) return reading.refuse("a face is cut short");
        std::vector<double> corners;
        for (std::size_t k = 1; k <= static_cast<std::size_t>(count); ++k) corners.push_back(number_of(line[k]));
        reading.add_face(corners);
    }
}

// OBJ: lines "v x y z" and "f a b c ...", corners counted from 1, from the last point where negative, "a/t/n" taken as a.
void read_obj(std::string_view text, Reading& reading) {
    Words words(text);
    while (!words.at_end() && reading.wrong.empty()) {
        const std::vector<std::string_view> line = words.line();
        if (line.size() >= 4 && line[0] == "v") reading.add_point({number_of(line[1]), number_of(line[2]), number_of(line[3])});
        if (line.size() < 4 || line[0] != "f") continue;
        std::vector<double> corners;
        for (std::size_t i = 1; i < line.size(); ++i) {
            const double corner = number_of(line[i].substr(0, line[i].find('/')));
            corners.push_back(corner < 0.0 ? static_cast<double>(reading.mesh.points.size()) + corner : corner - 1.0);
        }
        reading.add_face(corners);
    }
}

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

std::optional<PlyHead> ply_head(std::string_view text, Reading& reading) {
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

// Format: Turk 1994, "The PLY polygon file format", from memory.
void read_ply(std::string_view text, Reading& reading) {
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

std::string ending_of(const std::string& file) {
    const std::size_t dot = file.rfind('.');
    return dot == std::string::npos ? "" : base::folded(file.substr(dot));
}

}  // namespace

bool is_solid_file(const std::string& file) {
    const std::string ending = ending_of(file);
    return ending == ".ply" || ending == ".off" || ending == ".obj";
}

Read<mesh::TriangleMesh> read_solid(const std::string& file, double metres_per_unit) {
    Read<mesh::TriangleMesh> read;
    Reading reading;
    std::string bytes;
    try {
        bytes = base::read_file(file);
    } catch (const base::MachineError& error) {
        read.failure = error.message;
        return read;
    }
    const std::string ending = ending_of(file);
    ending == ".ply" ? read_ply(bytes, reading) : ending == ".off" ? read_off(bytes, reading) : read_obj(bytes, reading);
    if (reading.wrong.empty() && reading.mesh.triangles.empty()) reading.refuse("it holds no face");
    if (!reading.wrong.empty()) {
        read.failure = file + " cannot be read as a solid: " + reading.wrong;
        return read;
    }
    for (Eigen::Vector3d& point : reading.mesh.points) point *= metres_per_unit;
    read.value = std::move(reading.mesh);
    return read;
}

}  // namespace selvage::gis
