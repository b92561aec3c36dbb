#include "server/workbench.h"

#include <array>
#include <chrono>
#include <exception>
#include <optional>
#include <random>
#include <vector>

#include <fmt/format.h>

#include "formats/workbench/library.h"
#include "server/embedded_file.h"
#include "server/problems.h"

namespace ahead::server {
namespace {

/// The parts of `path` that stand for the braces of `pattern`, when it fits.
std::optional<std::vector<std::string>> fitted(std::string_view pattern, std::string_view path) {
  std::vector<std::string> found;
  while (!pattern.empty() || !path.empty()) {
    if (!pattern.starts_with('/') || !path.starts_with('/')) return std::nullopt;
    pattern.remove_prefix(1);
    path.remove_prefix(1);
    const std::string_view wanted = pattern.substr(0, pattern.find('/'));
    const std::string_view part = path.substr(0, path.find('/'));
    if (wanted.starts_with('{')) {
      if (part.empty()) return std::nullopt;
      found.emplace_back(part);
    } else if (wanted != part) {
      return std::nullopt;
    }
    pattern.remove_prefix(wanted.size());
    path.remove_prefix(part.size());
  }
  return found;
}

}  // namespace

Workbench::Workbench(std::unique_ptr<store::Library> kept, const Limits& given,
                     std::string program_version)
    : library(std::move(kept)),
      limits(given),
      version(std::move(program_version)),
      started(moment()),
      boot(random_digits(16)),
      plans(given.plans),
      streams(given.event_streams) {}

Reply answered(Workbench& workbench, Request request) {
  std::string allowed;
  for (const auto routes : {library_routes(), file_routes(), coach_routes(), stream_routes(),
                            lesson_routes(), capture_routes(), about_routes()}) {
    for (const Route& route : routes) {
      auto in_path = fitted(route.path, request.path);
      if (!in_path) continue;
      if (route.method != request.method) {
        allowed += (allowed.empty() ? "" : ", ") + std::string(route.method);
        continue;
      }
      request.in_path = *std::move(in_path);
      try {
        return route.answer(workbench, request);
      } catch (const std::exception& fault) {
        fmt::print(stderr, "ahead serve: {} {}: {}\n", request.method, route.path, fault.what());
        return internal();
      }
    }
  }
  return allowed.empty() ? not_found("such address") : wrong_method(allowed);
}

store::Outcome<bool> add_example(store::Library& library) {
  using formats::LibraryKind;
  const auto add = [&](LibraryKind kind, std::string_view file, const std::string& id,
                       const std::string& name,
                       const std::optional<std::string>& layout) -> store::Outcome<bool> {
    const auto draft = formats::read_import(*embedded_file(file), name);
    if (!draft) return std::unexpected(store::Fault{store::FaultKind::other, draft.error().wrong});
    const auto put =
        library.put(kind == LibraryKind::plan ? store::Kind::plan : store::Kind::layout,
                    {.id = id,
                     .name = draft->name,
                     .document = draft->document,
                     .facts = draft->facts,
                     .layout = layout},
                    std::nullopt, moment());
    if (!put) return std::unexpected(put.error());
    return true;
  };
  const std::string layout = "example-evening-class";
  auto added = add(LibraryKind::layout, "evening-class", layout, "Evening class", std::nullopt);
  if (added) added = add(LibraryKind::plan, "plan", "example-plan", "Evening class, club", layout);
  return added;
}

std::string moment() {
  const std::time_t now = std::chrono::system_clock::to_time_t(std::chrono::system_clock::now());
  std::tm utc{};
  gmtime_r(&now, &utc);
  return fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}Z", utc.tm_year + 1900, utc.tm_mon + 1,
                     utc.tm_mday, utc.tm_hour, utc.tm_min, utc.tm_sec);
}

std::string random_digits(int count) {
  std::random_device entropy;
  std::string digits;
  while (static_cast<int>(digits.size()) < count) digits += fmt::format("{:x}", entropy() % 16);
  return digits;
}

}  // namespace ahead::server
