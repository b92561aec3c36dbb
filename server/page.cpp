#include "server/page.h"

#include <array>
#include <cstdint>
#include <fstream>
#include <sstream>
#include <string_view>
#include <system_error>

#include <fmt/format.h>

#include "server/problems.h"

namespace ahead::server {
namespace {

namespace fs = std::filesystem;

struct Type {
  std::string_view ending;
  std::string_view type;
};
constexpr std::array types{Type{".html", "text/html; charset=utf-8"},
                           Type{".js", "text/javascript; charset=utf-8"},
                           Type{".mjs", "text/javascript; charset=utf-8"},
                           Type{".css", "text/css; charset=utf-8"},
                           Type{".json", "application/json; charset=utf-8"},
                           Type{".map", "application/json; charset=utf-8"},
                           Type{".svg", "image/svg+xml"},
                           Type{".png", "image/png"},
                           Type{".ico", "image/x-icon"},
                           Type{".woff2", "font/woff2"},
                           Type{".wasm", "application/wasm"},
                           Type{".webmanifest", "application/manifest+json"},
                           Type{".txt", "text/plain; charset=utf-8"}};

std::string type_of(const fs::path& path) {
  for (const Type& one : types) {
    if (path.extension() == one.ending) return std::string(one.type);
  }
  return "application/octet-stream";
}

/// FNV-1a, 64 bits: tells one build's file from another's.
std::string tag_of(std::string_view bytes) {
  std::uint64_t hash = 14695981039346656037U;
  for (const char c : bytes) {
    hash ^= static_cast<unsigned char>(c);
    hash *= 1099511628211U;
  }
  return fmt::format("\"{:016x}\"", hash);
}

constexpr std::string_view not_built = R"(<!doctype html>
<html lang="en">
<meta charset="utf-8">
<title>Three Ahead</title>
<h1>The page has not been built</h1>
<p>The server runs and answers under <a href="/api/about">/api</a>; only its page is missing.
Build it with <code>npm ci &amp;&amp; npm run build</code> in the folder <code>web</code>,
or say with <code>--page DIR</code> where it is, and start the server again.</p>
)";

}  // namespace

Page::Page(const fs::path& folder) {
  std::error_code ignored;
  for (auto entry = fs::recursive_directory_iterator(folder, ignored);
       entry != fs::recursive_directory_iterator(); entry.increment(ignored)) {
    if (entry->is_symlink(ignored) || !entry->is_regular_file(ignored)) continue;
    const std::ifstream file(entry->path(), std::ios::binary);
    std::ostringstream bytes;
    bytes << file.rdbuf();
    auto text = std::make_shared<const std::string>(std::move(bytes).str());
    files_["/" + entry->path().lexically_relative(folder).generic_string()] =
        File{.type = type_of(entry->path()), .tag = tag_of(*text), .bytes = text};
  }
  if (!files_.contains("/index.html")) {
    files_["/index.html"] = File{.type = "text/html; charset=utf-8",
                                 .tag = tag_of(not_built),
                                 .bytes = std::make_shared<const std::string>(not_built)};
  }
}

Reply Page::answer(const Request& request) const {
  const auto found = files_.find(request.path == "/" ? "/index.html" : request.path);
  if (found == files_.end()) return not_found("such file of the page");
  const File& file = found->second;
  Reply reply{.type = file.type, .body = file.bytes};
  reply.headers.emplace_back("ETag", file.tag);
  // Names below /assets/ carry a hash of what is in them; everything else is asked for again.
  reply.headers.emplace_back("Cache-Control", request.path.starts_with("/assets/")
                                                  ? "public, max-age=31536000, immutable"
                                                  : "no-cache");
  if (request.header("if-none-match") == file.tag) {
    reply.status = 304;
    reply.body = nullptr;
  }
  return reply;
}

}  // namespace ahead::server
