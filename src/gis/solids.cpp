#include "gis/solids.h"

#include "base/file.h"
#include "base/text.h"
#include "gis/solid_reading.h"

#include <utility>

namespace selvage::gis {

namespace {

// OFF: the word, counts of points, faces and edges, then the points, then each face with its number of corners.
void read_off(std::string_view text, SolidReading& reading) {
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
void read_obj(std::string_view text, SolidReading& reading) {
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
    SolidReading reading;
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
