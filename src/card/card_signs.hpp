// The short signs of the card's rows, and the legend that says what they mean.
#pragma once

#include "card/card_rows.hpp"

#include <string>
#include <vector>

namespace tuck::faces {

/// How far words are shortened; each level includes those before it.
enum class Level { whole, amounts, occasions, foods };

/// Shortens the words of rows and notes every sign in `legend`.
class Shortener {
public:
    Shortener(Level level, std::vector<LegendEntry>& legend) : level_(level), legend_(legend) {}

    /// "3 swallows B1" as "3×B1", "3 swallows B1 then B2" as "3×B", "1/2 bar" as "½ BAR", "2 cups water" as
    /// "2c".
    std::string token(const std::string& whole);
    /// "every 15' from 0:30" as "0:30+15'", "each station" as "aid".
    std::string when(const std::string& whole);

private:
    std::string food(const std::string& label);
    std::string source(const std::string& of);
    bool means_otherwise(const std::string& sign, const std::string& meaning) const;
    std::string cups(const std::string& whole, const std::string& amount, const std::string& of);

    Level level_;
    std::vector<LegendEntry>& legend_;
};

std::vector<std::string> split(const std::string& text, const std::string& at);
bool starts_with(const std::string& text, const std::string& start);

} // namespace tuck::faces
