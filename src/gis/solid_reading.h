#pragma once

#include "base/text.h"
#include "mesh/triangle_mesh.h"

#include <algorithm>
#include <array>
#include <limits>
#include <string>
#include <string_view>
#include <vector>

// What the readers of solids share. Private to this room.
namespace selvage::gis {

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
struct SolidReading {
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

inline double number_of(std::string_view word) { return base::parse_number(word).value_or(not_a_number); }

// Format: Turk 1994, "The PLY polygon file format", from memory.
void read_ply(std::string_view text, SolidReading& reading);

}  // namespace selvage::gis
