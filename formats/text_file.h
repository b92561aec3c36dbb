#pragma once

#include <cstddef>
#include <expected>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

#include "formats/input_error.h"

/// Whole files in and out.
namespace ahead::formats {

/// All bytes of the file. Refuses larger ones without reading them whole; the documents of this
/// program have at most 4 MB.
[[nodiscard]] std::expected<std::string, InputError> read_file(const std::filesystem::path& path,
                                                               std::size_t most_bytes = 4'000'000);

/// Writes to a temporary name beside `path` and renames, so that no one ever sees half a file and
/// an old file survives a failure. Empty when it went well. Does not make folders.
[[nodiscard]] std::optional<InputError> write_file(const std::filesystem::path& path,
                                                   std::string_view text);

/// Makes the folder and those above it where they are missing, and checks that files can be written
/// into it. Empty when it went well.
[[nodiscard]] std::optional<InputError> make_folder(const std::filesystem::path& path);

}  // namespace ahead::formats
