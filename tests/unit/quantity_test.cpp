// The contract of amounts and moments: no unit is taken for another, and the number is not changed.
#include "tuck/quantity.hpp"

#include <catch2/catch.hpp>
#include <fmt/format.h>
#include <limits>
#include <type_traits>

using namespace tuck;

namespace {

template <class A, class B>
concept adds = requires(A a, B b) {
    a + b;
};
template <class A, class B>
concept subtracts = requires(A a, B b) {
    a - b;
};
template <class A, class B>
concept adds_up = requires(A a, B b) {
    a += b;
};
template <class A, class B>
concept compares = requires(A a, B b) {
    a < b;
};
template <class A, class B>
concept equals = requires(A a, B b) {
    a == b;
};

template <class A, class B>
constexpr bool strangers = !adds<A, B> && !subtracts<A, B> && !adds_up<A&, B> && !compares<A, B> &&
                           !equals<A, B> && !std::is_constructible_v<A, B> && !std::is_assignable_v<A&, B>;
template <class A, class B>
constexpr bool go_together = adds<A, B>&& subtracts<A, B>&& adds_up<A&, B>&& compares<A, B>&& equals<A, B>&&
    std::is_convertible_v<B, A>&& std::is_assignable_v<A&, B>;

static_assert(strangers<Grams, Millilitres> && strangers<Millilitres, Grams>);
static_assert(strangers<Grams, Milligrams> && strangers<Seconds, Millilitres>);
static_assert(go_together<Grams, Grams> && go_together<Grams, double> && go_together<Seconds, int>);
static_assert(!std::is_constructible_v<Grams, const char*> && !std::is_constructible_v<Grams, bool*>);
// A scaled amount is still one of its unit.
static_assert(std::is_same_v<decltype(2 * Grams{1}), Grams> && std::is_same_v<decltype(Grams{1} / 2), Grams>);
static_assert(sizeof(Grams) == sizeof(double) && std::is_trivially_copyable_v<Grams>);

} // namespace

TEST_CASE("a quantity is its number, bit by bit") {
    for (const double number : {0.0, 0.1, 1.0 / 3, 1e300, std::numeric_limits<double>::denorm_min()}) {
        CHECK(Grams{number}.count() == number);
        CHECK(static_cast<double>(Grams{number} + Grams{0.2}) == number + 0.2);
        CHECK(static_cast<double>(Grams{number} - 0.2) == number - 0.2);
        CHECK(static_cast<double>(3 * Grams{number}) == 3 * number);
        CHECK(static_cast<double>(Grams{number} / 7) == number / 7);
        CHECK(fmt::format("{:.3g}", Grams{number}) == fmt::format("{:.3g}", number));
    }
    Millilitres drunk = 250;
    drunk += 30;
    drunk -= Millilitres{80};
    drunk *= 2;
    CHECK(drunk == 400);
    CHECK(-drunk < drunk);
}
