// For a tree that tests/bench/mutants.py has broken in many places, each of them off until TUCK_MUTANT names
// it. With -1 all are off, and which of them are come by is added to the file that TUCK_MUTANTS_MET names.
#pragma once

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <initializer_list>

#pragma GCC diagnostic ignored "-Wconversion" // a constant that is chosen at run time is none to the compiler
#pragma GCC diagnostic ignored "-Wnarrowing"
#pragma GCC diagnostic ignored "-Wparentheses"
#pragma GCC diagnostic ignored "-Wextra"

namespace mutants {

#define TUCK_HERE                                                                                            \
    [[gnu::always_inline]] inline // also into code for other processors: see src/outlook/engine.cpp

inline const int chosen = std::getenv("TUCK_MUTANT") ? std::atoi(std::getenv("TUCK_MUTANT")) : 0;
inline bool met[4096];

[[gnu::noinline, gnu::cold]] inline bool meet(int number) {
    met[number] = true;
    return false;
}
TUCK_HERE bool on(int number) {
    return chosen == number || (chosen == -1 && meet(number));
}

struct Teller {
    ~Teller() {
        const char* name = std::getenv("TUCK_MUTANTS_MET");
        std::FILE* file = chosen == -1 && name ? std::fopen(name, "a") : nullptr;
        if (!file)
            return;
        for (int number = 0; number < 4096; ++number)
            if (met[number])
                std::fprintf(file, "%d ", number);
        std::fclose(file);
    }
};
inline const Teller teller;

// `a < b` becomes `a < Less{17} > b`, which binds as the comparison did.
template <typename L, typename At>
struct Left {
    const L& left;
    int number;
};
#define TUCK_COMPARISON(NAME, FIRST, SECOND, SOUND, BROKEN)                                                  \
    struct NAME {                                                                                            \
        int number;                                                                                          \
    };                                                                                                       \
    template <typename L>                                                                                    \
    TUCK_HERE Left<L, NAME> operator FIRST(const L& left, NAME at) {                                         \
        return {left, at.number};                                                                            \
    }                                                                                                        \
    template <typename L, typename R>                                                                        \
    TUCK_HERE auto operator SECOND(const Left<L, NAME>& a, const R& right) {                                 \
        return on(a.number) ? (a.left BROKEN right) : (a.left SOUND right);                                  \
    }
TUCK_COMPARISON(Less, <, >, <, >=)
TUCK_COMPARISON(More, <, >, >, <=)
TUCK_COMPARISON(NotMore, <, >, <=, <)
TUCK_COMPARISON(NotLess, <, >, >=, >)
TUCK_COMPARISON(Same, ==, !=, ==, !=)
TUCK_COMPARISON(Other, ==, !=, !=, ==)

template <typename T>
TUCK_HERE T min(int number, const T& a, const T& b) {
    return on(number) ? std::max(a, b) : std::min(a, b);
}
template <typename T>
TUCK_HERE T max(int number, const T& a, const T& b) {
    return on(number) ? std::min(a, b) : std::max(a, b);
}
template <typename T>
T min(int number, std::initializer_list<T> all) {
    return on(number) ? std::max(all) : std::min(all);
}
template <typename T>
T max(int number, std::initializer_list<T> all) {
    return on(number) ? std::min(all) : std::max(all);
}

} // namespace mutants
