#pragma once

#include <string>

/// Numbers of answers that are asked for many times a second. A path has hundreds of them, and a
/// general writer that looks for the shortest digits took a third of such an answer's time.
namespace ahead::formats {

/// Appends `value` with at most `decimals` decimals (0 to 6), without needless zeros. Requires a
/// value of less than 1e9 in size: nothing on a table is larger.
void append_number(std::string& text, double value, int decimals);

}  // namespace ahead::formats
