#pragma once

#include <memory>
#include <span>
#include <string>
#include <string_view>

#include "server/changes.h"
#include "server/known.h"
#include "server/lessons.h"
#include "server/limits.h"
#include "server/request.h"
#include "store/library.h"

/// What the interface answers from, and its addresses.
namespace ahead::server {

struct Workbench {
  Workbench(std::unique_ptr<store::Library> kept, const Limits& given, std::string program_version);

  std::unique_ptr<store::Library> library;
  Limits limits;
  std::string version;
  std::string started;  ///< UTC
  std::string boot;     ///< another at each start
  Known known;
  Changes changes;
  Lessons lessons;
  Slots plans;
  Slots streams;
};

struct Route {
  std::string_view method;
  std::string_view path;  ///< as in server/openapi.json: "/api/plans/{id}/history/{revision}"
  Reply (*answer)(Workbench&, const Request&);
};

[[nodiscard]] std::span<const Route> library_routes();  // library_routes.cpp
[[nodiscard]] std::span<const Route> file_routes();     // file_routes.cpp
[[nodiscard]] std::span<const Route> coach_routes();    // coach_routes.cpp
[[nodiscard]] std::span<const Route> stream_routes();   // stream_routes.cpp
[[nodiscard]] std::span<const Route> lesson_routes();   // lesson_routes.cpp
[[nodiscard]] std::span<const Route> capture_routes();  // capture_routes.cpp
[[nodiscard]] std::span<const Route> about_routes();    // about_routes.cpp

/// Finds the route and answers; a fault of ours becomes a problem too.
[[nodiscard]] Reply answered(Workbench& workbench, Request request);

/// Puts in the example that the first visit opens on. Requires an empty library.
[[nodiscard]] store::Outcome<bool> add_example(store::Library& library);

/// Now, UTC, such as 2026-01-31T19:05:00Z.
[[nodiscard]] std::string moment();

/// So many random lower-case hexadecimal digits.
[[nodiscard]] std::string random_digits(int count);

}  // namespace ahead::server
