// Amounts and moments with their unit, so that millilitres cannot be stored, added or compared as grams.
#pragma once

#include <compare>
#include <concepts>

namespace tuck {

/// A number of one unit. A plain number takes the unit of where it is stored, and a quantity reads as its
/// number inside a formula; scaled, added or subtracted it keeps its unit. Where a formula changes the unit
/// ("1000 mg a gram"), it says so: `Milligrams{1000 * g.count()}`.
template <class Unit>
class Quantity {
public:
    constexpr Quantity() = default;
    template <class Number>
    requires std::integral<Number> || std::floating_point<Number>
    constexpr Quantity(Number count) : count_(static_cast<double>(count)) {}
    template <class Other>
    Quantity(Quantity<Other>) = delete;

    constexpr double count() const { return count_; }
    constexpr operator double() const { return count_; }

    constexpr Quantity operator-() const { return -count_; }
    constexpr Quantity& operator+=(Quantity more) { return *this = count_ + more.count_; }
    constexpr Quantity& operator-=(Quantity less) { return *this = count_ - less.count_; }
    constexpr Quantity& operator*=(double times) { return *this = count_ * times; }
    constexpr Quantity& operator/=(double parts) { return *this = count_ / parts; }

private:
    double count_ = 0;
};

template <class Unit>
constexpr Quantity<Unit> operator+(Quantity<Unit> a, Quantity<Unit> b) {
    return a.count() + b.count();
}
template <class Unit>
constexpr Quantity<Unit> operator-(Quantity<Unit> a, Quantity<Unit> b) {
    return a.count() - b.count();
}
template <class Unit, class Number>
requires std::integral<Number> || std::floating_point<Number>
constexpr Quantity<Unit> operator*(Quantity<Unit> a, Number times) {
    return a.count() * static_cast<double>(times);
}
template <class Unit, class Number>
requires std::integral<Number> || std::floating_point<Number>
constexpr Quantity<Unit> operator*(Number times, Quantity<Unit> a) {
    return a.count() * static_cast<double>(times);
}
template <class Unit, class Number>
requires std::integral<Number> || std::floating_point<Number>
constexpr Quantity<Unit> operator/(Quantity<Unit> a, Number parts) {
    return a.count() / static_cast<double>(parts);
}

/// Two units have no sum, no difference and no order.
template <class A, class B>
void operator+(Quantity<A>, Quantity<B>) = delete;
template <class A, class B>
void operator-(Quantity<A>, Quantity<B>) = delete;
template <class A, class B>
void operator<=>(Quantity<A>, Quantity<B>) = delete;
template <class A, class B>
void operator==(Quantity<A>, Quantity<B>) = delete;

template <class Unit>
constexpr bool operator==(Quantity<Unit> a, Quantity<Unit> b) {
    return a.count() == b.count();
}
template <class Unit>
constexpr auto operator<=>(Quantity<Unit> a, Quantity<Unit> b) {
    return a.count() <=> b.count();
}

/// How libraries for JSON and for text ask for the number.
template <class Json, class Unit>
void to_json(Json& json, Quantity<Unit> quantity) {
    json = quantity.count();
}
template <class Unit>
constexpr double format_as(Quantity<Unit> quantity) {
    return quantity.count();
}

using Grams = Quantity<struct Gram>;
using Milligrams = Quantity<struct Milligram>;
using Millilitres = Quantity<struct Millilitre>;
using Seconds = Quantity<struct Second>; // a moment: since a start that its name or comment tells

} // namespace tuck
