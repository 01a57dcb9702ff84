#pragma once

#include <optional>
#include <string>
#include <utility>

namespace selvage::mesh {

// Why a mesh could not be made. Nothing in this room throws for what is wrong with its input.
enum class Refusal {
    none,
    bad_number,       // a coordinate or bound that is not finite, or not above zero where it must be
    too_few_points,   // a loop or surface with fewer than three
    no_area,          // a loop without area
    crossing,         // a loop that crosses or touches itself or another; a solid that does
    too_many_points,  // the bound on edges asks for more than the limit
    walls_cross,      // thickness that is not above zero
    not_closed,       // a hole, an edge of more than two triangles, or triangles that look in different directions
    inside_out,       // closed, but looking inwards
    no_intersection,  // of a computation that gave no sound solid
};

// A value, or the reason why there is none.
template <typename T>
struct Outcome {
    std::optional<T> value;
    Refusal refusal = Refusal::none;
    std::string message;  // one sentence with its figures; empty where there is a value
    int item = -1;        // the loop, point or triangle that is to blame, where one is

    explicit operator bool() const { return value.has_value(); }
    const T& operator*() const { return *value; }
    T& operator*() { return *value; }
    const T* operator->() const { return &*value; }
};

template <typename T>
Outcome<T> made(T value) {
    return {std::move(value), Refusal::none, {}, -1};
}
template <typename T>
Outcome<T> refused(Refusal refusal, std::string message, int item = -1) {
    return {std::nullopt, refusal, std::move(message), item};
}
// The same refusal, of another type.
template <typename T, typename Other>
Outcome<T> refused(const Outcome<Other>& other) {
    return {std::nullopt, other.refusal, other.message, other.item};
}

}  // namespace selvage::mesh
