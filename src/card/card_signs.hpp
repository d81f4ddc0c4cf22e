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
    std::string item(const Line& line, const LineItem& item);
    /// "every 15' from 0:30" as "0:30+15'", "each station" as "aid"; without the window where it stands above.
    std::string rhythm(const Line& line, bool window_above);

private:
    std::string food(const std::string& label);
    std::string source(const Line& line, const LineItem& item);
    bool means_otherwise(const std::string& sign, const std::string& meaning) const;
    std::string cups(const Line& line, const LineItem& item);

    Level level_;
    std::vector<LegendEntry>& legend_;
};

} // namespace tuck::faces
