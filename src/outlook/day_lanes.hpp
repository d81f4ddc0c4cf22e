// The arithmetic of the days, in lanes. Included once for every target inside a namespace of its own, with
// TUCK_LANES lanes, so that no instruction of one processor leaks into code for another. Nothing here may be
// shared between targets, and no sum may run over lanes.
// No include guard: see engine.cpp.

typedef float F __attribute__((vector_size(4 * TUCK_LANES)));
typedef std::int32_t I __attribute__((vector_size(4 * TUCK_LANES)));
typedef std::uint32_t U __attribute__((vector_size(4 * TUCK_LANES)));

using enum Column;

#define TUCK_INLINE static inline __attribute__((always_inline))

TUCK_INLINE F all(float x) {
    return x - F{};
}
TUCK_INLINE F least(F a, F b) {
    return a < b ? a : b;
}
TUCK_INLINE F most(F a, F b) {
    return b < a ? a : b;
}
TUCK_INLINE F between(F x, float low, float high) {
    return least(most(x, all(low)), all(high));
}
TUCK_INLINE F load(const float* from) {
    F out;
    __builtin_memcpy(&out, from, sizeof out);
    return out;
}
TUCK_INLINE void store(float* to, F x) {
    __builtin_memcpy(to, &x, sizeof x);
}

/// Natural logarithm for normal x > 0, relative error under 2e-7: x = 2^n m with m in [0.707, 1.414), and
/// ln m = 2 artanh((m - 1) / (m + 1)) by its series.
TUCK_INLINE F log_of(F x) {
    const I bits = (I)x;
    const I n = (bits - 0x3f3504f3) >> 23;
    const F m = (F)(bits - (n << 23));
    const F s = (m - 1.0f) / (m + 1.0f), s2 = s * s;
    const F series = (((s2 * (1 / 9.0f) + 1 / 7.0f) * s2 + 1 / 5.0f) * s2 + 1 / 3.0f) * s2;
    const F whole = __builtin_convertvector(n, F);
    return whole * 0.693145751953125f + ((s + s) + ((s + s) * series + whole * 1.42860677e-6f));
}

/// Exponential for |x| < 80, relative error under 2e-7: 2^n times a Taylor series on |r| <= ln(2)/2.
TUCK_INLINE F exp_of(F x) {
    const F shift = all(12582912.0f); // 1.5 * 2^23: the sum rounds to a whole number
    const F n = (x * 1.44269504f + shift) - shift;
    const F r = (x - n * 0.693145751953125f) - n * 1.42860677e-6f;
    F y = r * (1 / 5040.0f) + 1 / 720.0f;
    y = y * r + 1 / 120.0f;
    y = y * r + 1 / 24.0f;
    y = y * r + 1 / 6.0f;
    y = y * r + 0.5f;
    y = (y * r) * r + r + 1.0f;
    return (F)((I)y + (__builtin_convertvector(n, I) << 23));
}

TUCK_INLINE F root_of(F x) {
    F out = x;
    for (int i = 0; i < TUCK_LANES; ++i)
        out[i] = __builtin_sqrtf(x[i]); // correctly rounded everywhere (IEEE 754)
    return out;
}

/// Finaliser of MurmurHash3 (Appleby 2011): a bijection of 32 bits.
TUCK_INLINE U mixed(U h) {
    h = (h ^ (h >> 16)) * 0x85ebca6bu;
    h = (h ^ (h >> 13)) * 0xc2b2ae35u;
    return h ^ (h >> 16);
}

TUCK_INLINE U days_from(std::size_t day) {
    U out{};
    for (int i = 0; i < TUCK_LANES; ++i)
        out[i] = static_cast<std::uint32_t>(day) + static_cast<std::uint32_t>(i);
    return out;
}

TUCK_INLINE F uniform_of(std::uint32_t key_a, std::uint32_t key_b, U day) {
    const U h = mixed(mixed(day + key_a) ^ key_b);
    return (__builtin_convertvector((I)(h >> 9), F) + 0.5f) * 0x1p-23f;
}

/// Standard normal by inversion (Wichura 1988, AS 241, PPND7: 7 figures). Its far tail, beyond probabilities
/// of 1e-11, lies outside the grid of the uniforms.
TUCK_INLINE F normal_of(F u) {
    const F q = u - 0.5f;
    const F r = 0.180625f - q * q;
    const F centre =
        q * (((r * 5.9109374720e+1f + 1.5929113202e+2f) * r + 5.0434271938e+1f) * r + 3.3871327179f) /
        (((r * 6.7187563600e+1f + 7.8757757664e+1f) * r + 1.7895169469e+1f) * r + 1.0f);
    const F outer = least(u, 1.0f - u);
    const F t = root_of(-log_of(outer)) - 1.6f;
    const F tail = (((t * 1.7023821103e-1f + 1.3067284816f) * t + 2.7568153900f) * t + 1.4234372777f) /
                   ((t * 1.2021132975e-1f + 7.3700164250e-1f) * t + 1.0f);
    const F signed_tail = q < 0.0f ? -tail : tail;
    return (q < 0.0f ? -q : q) <= 0.425f ? centre : signed_tail;
}

TUCK_INLINE F normal_of(Key key, U day) {
    return normal_of(uniform_of(key.a, key.b, day));
}

// ---- draws ----

static void draw(const RaceGrid& g, DayColumns& c) {
    for (std::size_t d = 0; d < c.padded(); d += TUCK_LANES) {
        const U day = days_from(d);
        const auto z = [&](Variable v) __attribute__((always_inline)) {
            return normal_of(g.keys[v], day);
        };
        store(c[air_c] + d, z(air_v) * g.air_sd_c);
        store(c[humidity_pct] + d, z(humidity_v) * g.humidity_sd_pct);
        store(c[pace_z] + d, z(pace_v));
        store(c[sweat_z] + d, z(sweat_v));
        store(c[sodium_mg_per_ml] + d, exp_of(z(sodium_v) * g.sodium_log_sd) * g.sodium_mg_per_ml);
        store(c[share] + d, z(fuel_v) * g.share_sd);
        const F stores = exp_of(z(stores_v) * g.stores_log_sd);
        const F muscle = stores * g.muscle_g, liver = stores * g.liver_g;
        store(c[start_muscle_g] + d, muscle);
        store(c[start_liver_g] + d, liver);
        const F water = z(water_v);
        store(c[start_water_ml] + d, water * g.start_water_sd_ml);
        // Less water at the start, saltier blood: correlation -0.5 (our choice).
        const F serum = z(serum_v) * 0.8660254f - water * 0.5f;
        store(c[start_sodium] + d, serum * g.start_sodium_sd + g.start_sodium);
        store(c[gut] + d, exp_of(z(gut_v) * g.gut_log_sd) * g.gut_median);
        store(c[comfort_ml] + d, exp_of(z(stomach_v) * g.comfort_log_sd) * g.comfort_ml);
        store(c[faithful] + d, uniform_of(g.keys[plan_v].a, g.keys[plan_v].b, day));
        store(c[stretch] + d, all(1));
        store(c[sweat_factor] + d, all(1));
        for (const Column zero :
             {log_pace, stomach_ml, stomach_glucose_g, stomach_fructose_g, gut_ml, gut_glucose_g,
              gut_fructose_g, absorbed_g, water_ml, mass_g, sodium_mg, sweat_ml, drunk_ml, unmet_g,
              lapsed_min, missed_feeds, worst, worst_min, worst_cause})
            store(c[zero] + d, F{});
        store(c[muscle_g] + d, muscle);
        store(c[liver_g] + d, liver);
        store(c[fullest_ml] + d, all(-1e6f));
    }
}

// ---- one block of days ----

struct Lane {
    // Drawn.
    F air, humidity, pace, sweat_z, sodium_per_ml, share, gut, comfort, faithful, muscle_start, liver_start;
    F thirsty_at, sodium_to_water, loss_at; // see thirst
    // Of the leg.
    F stretch, log_pace, sweat_factor;
    // State.
    F stomach, s_glucose, s_fructose, intestine, i_glucose, i_fructose, absorbed;
    F muscle, liver, water, mass, sodium, sweat, drunk, unmet, fullest, lapsed, missed, worst, worst_at,
        cause;
};

#define TUCK_STATE(X)                                                                                        \
    X(stretch, stretch)                                                                                      \
    X(log_pace, log_pace)                                                                                    \
    X(sweat_factor, sweat_factor)                                                                            \
    X(stomach, stomach_ml)                                                                                   \
    X(s_glucose, stomach_glucose_g)                                                                          \
    X(s_fructose, stomach_fructose_g)                                                                        \
    X(intestine, gut_ml)                                                                                     \
    X(i_glucose, gut_glucose_g)                                                                              \
    X(i_fructose, gut_fructose_g)                                                                            \
    X(absorbed, absorbed_g)                                                                                  \
    X(muscle, muscle_g)                                                                                      \
    X(liver, liver_g)                                                                                        \
    X(water, water_ml)                                                                                       \
    X(mass, mass_g)                                                                                          \
    X(sodium, sodium_mg)                                                                                     \
    X(sweat, sweat_ml)                                                                                       \
    X(drunk, drunk_ml)                                                                                       \
    X(unmet, unmet_g)                                                                                        \
    X(fullest, fullest_ml)                                                                                   \
    X(lapsed, lapsed_min)                                                                                    \
    X(missed, missed_feeds)                                                                                  \
    X(worst, worst)                                                                                          \
    X(worst_at, worst_min)                                                                                   \
    X(cause, worst_cause)

TUCK_INLINE void read(const RaceGrid& g, const DayColumns& c, std::size_t d, Lane& x) {
    x.air = load(c[air_c] + d);
    x.humidity = load(c[humidity_pct] + d);
    x.pace = load(c[pace_z] + d);
    x.sweat_z = load(c[sweat_z] + d);
    x.sodium_per_ml = load(c[sodium_mg_per_ml] + d);
    x.share = load(c[share] + d);
    x.gut = load(c[gut] + d);
    x.comfort = load(c[comfort_ml] + d);
    x.faithful = load(c[faithful] + d);
    x.muscle_start = load(c[start_muscle_g] + d);
    x.liver_start = load(c[start_liver_g] + d);
    // Water that would bring serum sodium down to where thirst begins, ml: thirsty_at + sodium_to_water *
    // (sodium and potassium taken less lost) - water. Kurtz solved for the water.
    const F start = load(c[start_sodium] + d), dry = load(c[start_water_ml] + d);
    const F per = 1.0f / (start + (kurtz_offset + thirsty_mmol_per_l));
    x.thirsty_at = (start + kurtz_offset) * per * g.body_water_ml - g.body_water_ml - dry;
    x.sodium_to_water = per * (kurtz_slope * 1000);
    x.loss_at = -dry - thirsty_loss * g.mass_g;
#define TUCK_READ(member, column) x.member = load(c[column] + d);
    TUCK_STATE(TUCK_READ)
#undef TUCK_READ
}

TUCK_INLINE void write(const Lane& x, std::size_t d, DayColumns& c) {
#define TUCK_WRITE(member, column) store(c[column] + d, x.member);
    TUCK_STATE(TUCK_WRITE)
#undef TUCK_WRITE
}

TUCK_INLINE void start_leg(const GridLeg& leg, U day, Lane& x) {
    const F own = normal_of(uniform_of(leg.key_a, leg.key_b, day));
    const F z = (x.pace + own) * leg_correlation_root;
    const F log_time =
        between(z * leg.time_log_sd + x.air * leg.slower_per_c, shortest_stretch_log, longest_stretch_log);
    x.log_pace = -log_time;
    x.stretch = exp_of(log_time);
    x.sweat_factor = exp_of((x.sweat_z > 0.0f ? x.sweat_z * leg.sweat_sd_up : x.sweat_z * leg.sweat_sd_down));
}

TUCK_INLINE void take(const RaceGrid& g, const Dose& dose, float longest, U day, Lane& x) {
    const F u = uniform_of(dose.key_a, dose.key_b, day);
    const F zero{};
    const F on_time = u < g.missed_or_late ? zero : all(1);
    const F late = u < g.missed ? zero : 1.0f - on_time;
    F part = dose.late ? late : on_time;
    if (!dose.late)
        x.missed += u < g.missed ? all(1) : zero;
    if (dose.by_clock) // a longer day has more of them, as long as the supplies last
        part *= least(x.stretch, all(longest));
    F drink = part * dose.fluid;
    if (dose.plain_water) {
        const F want = between(left_at_none - x.water * g.left_per_ml, 0, 1);
        drink *= x.faithful + (1.0f - x.faithful) * want;
    }
    const F glucose = part * dose.glucose, fructose = part * dose.fructose;
    x.stomach += drink;
    x.s_glucose += glucose;
    x.s_fructose += fructose;
    x.water += drink;
    x.drunk += drink;
    x.mass += drink + (glucose + fructose);
    x.sodium += part * dose.sodium;
}

/// Sodium and potassium taken less lost, mmol.
TUCK_INLINE F electrolytes(const Lane& x) {
    return x.sodium * mmol_per_mg_sodium - x.sweat * sweat_potassium_mmol_per_ml;
}

/// Sweat, salt, fuel, breath. Returns the carbohydrate burnt, g.
TUCK_INLINE F burn_and_sweat(const RaceGrid& g, const Minute& m, F minutes, F drink, Lane& x) {
    const F rate =
        most(x.air * (x.air * m.sweat_c2 + m.sweat_c) +
                 x.humidity * (x.humidity * m.sweat_pct2 + m.sweat_pct) + x.log_pace * m.sweat_pace + m.sweat,
             F{});
    const F dry = between(1.0f + less_sweat * dry_from + x.water * g.dry_per_ml, least_sweat, 1);
    const F sweat = rate * (x.sweat_factor * minutes) * dry;
    const F salt = x.sodium_per_ml * (rate * (m.per_sweat * sodium_with_rate) + (1 - sodium_with_rate));
    x.sweat += sweat;
    x.sodium -= sweat * salt;

    const F burn = most(x.log_pace * m.burn_pace + 1.0f, all(0.3f)) * minutes;
    const F carb = between(x.share * m.energy + m.carb, m.energy * least_carb_share, m.energy) * burn;
    const F fat = (burn * m.energy - carb) * (kcal_per_g_carb / kcal_per_g_fat);
    const F water = carb * water_per_g_carb + fat * water_per_g_fat - burn * m.breath + drink;
    x.water = (x.water + water) - sweat;
    x.mass = (x.mass + (water - (carb + fat))) - sweat;
    return carb;
}

/// Stomach to intestine to blood; returns the carbohydrate absorbed, g.
TUCK_INLINE F digest(F minutes, Lane& x) {
    const F volume = x.stomach + juice_ml;
    const F food = (x.s_glucose + x.s_fructose) * (1 / half_strength_g_per_ml);
    const F volume2 = volume * volume;
    const F weak = volume2 / (volume2 + food * food); // apart from the gut, so that neither waits
    const F held =
        most(1.0f - (x.intestine * (1 / shut_ml) + (x.i_glucose + x.i_fructose) * (1 / shut_g)), F{});
    const F part = least(held * (weak * (x.gut * minutes * emptying_per_min)), all(0.9f));
    const F water = x.stomach * part, glucose = x.s_glucose * part, fructose = x.s_fructose * part;
    x.stomach -= water;
    x.s_glucose -= glucose;
    x.s_fructose -= fructose;
    x.intestine += water;
    x.i_glucose += glucose;
    x.i_fructose += fructose;

    const F limit = x.gut * minutes;
    x.intestine -=
        least(x.intestine * least(minutes * water_uptake_per_min, all(1)), limit * water_uptake_ml_per_min);
    const F sugar = least(minutes * sugar_uptake_per_min, all(1));
    const F glucose_in = least(x.i_glucose * sugar, limit * glucose_g_per_min);
    const F fructose_in = least(x.i_fructose * sugar, limit * fructose_g_per_min);
    x.i_glucose -= glucose_in;
    x.i_fructose -= fructose_in;
    x.absorbed += glucose_in + fructose_in;
    return glucose_in + fructose_in;
}

/// What was absorbed is burnt first; what is over goes to the liver; the rest comes from the stores.
TUCK_INLINE void fuel(F carb, F absorbed, Lane& x) {
    const F from_food = least(absorbed, carb);
    x.liver += absorbed - from_food;
    const F needed = carb - from_food;
    const F liver = least(needed * liver_share, x.liver);
    const F muscle = least(needed - liver, x.muscle);
    const F rest = needed - liver - muscle;
    const F more = least(rest, x.liver - liver);
    x.liver -= liver + more;
    x.muscle -= muscle;
    x.unmet += rest - more;
}

/// What thirst drinks in this minute, ml, from the state at its start.
TUCK_INLINE F thirst(const Minute& m, F minutes, const Lane& x) {
    const F salty = x.sodium_to_water * electrolytes(x) + (x.thirsty_at - x.water);
    const F dry = x.loss_at - x.water;
    const F wanted = most(least(salty * (1 / make_up_min), all(m.thirst)),
                          least(dry * (1 / make_up_min), all(m.emergency)));
    return most(least(wanted * minutes, x.comfort - x.stomach), F{});
}

TUCK_INLINE F serum(const RaceGrid& g, F start, F start_water, const Lane& x) {
    const F above = (start + kurtz_offset) * (g.body_water_ml * 1e-3f) + electrolytes(x) * kurtz_slope;
    return above / ((x.water + start_water + g.body_water_ml) * 1e-3f) - kurtz_offset;
}

/// How much of each caution is used up: 4 % of mass in water, a comfortable stomach, 135 mmol/L, all stores.
TUCK_INLINE void judge(const RaceGrid& g, F start, F start_water, Lane& x) {
    const F water = x.water * (-25.0f / g.mass_g), stomach = x.stomach / x.comfort;
    const F sodium = (140.0f - serum(g, start, start_water, x)) * 0.2f;
    const F stores = 1.0f - (x.muscle + x.liver) / (x.muscle_start + x.liver_start);
    const F values[4] = {water, stomach, sodium, stores};
    for (int i = 0; i < 4; ++i) {
        const I more = values[i] > x.worst;
        x.worst_at = more ? x.lapsed : x.worst_at;
        x.cause = more ? all(static_cast<float>(i)) : x.cause;
        x.worst = more ? values[i] : x.worst;
    }
}

TUCK_INLINE void step(const RaceGrid& g, const Minute& m, U day, Lane& x) {
    if (m.starts_leg)
        start_leg(g.legs[static_cast<std::size_t>(m.leg)], day, x);
    for (int i = 0; i < m.doses; ++i)
        take(g, g.doses[static_cast<std::size_t>(m.first_dose + i)],
             g.legs[static_cast<std::size_t>(m.leg)].longest, day, x);
    const F minutes = x.stretch * m.minutes;
    x.fullest = most(x.fullest, x.stomach - x.comfort);
    const F drink = thirst(m, minutes, x);
    const F carb = burn_and_sweat(g, m, minutes, drink, x);
    fuel(carb, digest(minutes, x), x);
    x.stomach += drink;
    x.drunk += drink;
    x.lapsed += minutes;
}

TUCK_INLINE void keep(const RaceGrid& g, const DayColumns& c, std::size_t d, const MarkColumns& mark,
                      Lane& x) {
    judge(g, load(c[start_sodium] + d), load(c[start_water_ml] + d), x);
    store(mark.mass_g + d, x.mass);
    store(mark.glycogen_g + d, x.muscle + x.liver);
    store(mark.gut_ml + d, x.stomach + x.intestine);
}

/// Blocks of days that are stepped side by side: a step is a long chain of operations that wait for each
/// other, and a second, independent chain fills the gaps.
constexpr std::size_t side_by_side = 1;

static void advance(const RaceGrid& g, std::size_t first, std::size_t last, DayColumns& c,
                    const MarkColumns* marks) {
    for (std::size_t d = 0; d < c.padded(); d += side_by_side * TUCK_LANES) {
        Lane x[side_by_side];
        for (std::size_t k = 0; k < side_by_side; ++k)
            read(g, c, d + k * TUCK_LANES, x[k]);
        const MarkColumns* mark = marks;
        for (std::size_t i = first; i < last; ++i) {
            const Minute& m = g.minutes[i];
            for (std::size_t k = 0; k < side_by_side; ++k)
                step(g, m, days_from(d + k * TUCK_LANES), x[k]);
            if (!m.marks || !marks)
                continue;
            for (std::size_t k = 0; k < side_by_side; ++k)
                keep(g, c, d + k * TUCK_LANES, *mark, x[k]);
            ++mark;
        }
        for (std::size_t k = 0; k < side_by_side; ++k)
            write(x[k], d + k * TUCK_LANES, c);
    }
}

static void finish(const RaceGrid& g, DayColumns& c) {
    for (std::size_t d = 0; d < c.padded(); d += TUCK_LANES) {
        Lane x;
        read(g, c, d, x);
        store(c[serum_sodium] + d, serum(g, load(c[start_sodium] + d), load(c[start_water_ml] + d), x));
    }
}

static void logs(const float* x, std::size_t n, float* out) {
    for (std::size_t i = 0; i < n; i += TUCK_LANES)
        store(out + i, log_of(load(x + i)));
}

static void exps(const float* x, std::size_t n, float* out) {
    for (std::size_t i = 0; i < n; i += TUCK_LANES)
        store(out + i, exp_of(load(x + i)));
}

static void normals(Key key, std::size_t n, float* out) {
    for (std::size_t i = 0; i < n; i += TUCK_LANES)
        store(out + i, normal_of(key, days_from(i)));
}

#undef TUCK_STATE
#undef TUCK_INLINE
