#include "card/card_place.hpp"

#include <algorithm>

namespace tuck::faces {

Grid grid(double sheet_width_mm, double height_mm, const CardSize& size) {
    const auto how_many = [](double room_mm, double side_mm) {
        const auto fitting =
            static_cast<std::size_t>((room_mm + between_sides_mm) / (side_mm + between_sides_mm));
        return std::max<std::size_t>(1, fitting);
    };
    return {how_many(sheet_width_mm - 2 * sheet_margin_mm, size.width_mm),
            how_many(height_mm, size.height_mm)};
}

std::vector<Trim> trims(double sheet_width_mm, double top_mm, const CardSize& size, const Grid& grid,
                        std::size_t count) {
    const std::size_t columns = std::min(count, grid.columns);
    const double width = static_cast<double>(columns) * (size.width_mm + between_sides_mm) - between_sides_mm;
    const double left_mm = (sheet_width_mm - width) / 2;
    std::vector<Trim> all;
    for (std::size_t i = 0; i < count; ++i) {
        const std::size_t row = i / columns;
        all.push_back({left_mm + static_cast<double>(i % columns) * (size.width_mm + between_sides_mm),
                       top_mm + static_cast<double>(row) * (size.height_mm + between_sides_mm), size.width_mm,
                       size.height_mm});
    }
    return all;
}

} // namespace tuck::faces
