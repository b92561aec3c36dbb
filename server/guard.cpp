#include "server/guard.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cstdint>
#include <string_view>

#include <fmt/format.h>

#include "server/problems.h"

namespace ahead::server {
namespace {

/// In a time that does not tell how much of it is right.
bool same_secret(std::string_view given, std::string_view secret) {
  if (given.size() != secret.size()) return false;
  unsigned difference = 0;
  for (std::size_t i = 0; i < given.size(); ++i) {
    difference |= static_cast<unsigned char>(given[i]) ^ static_cast<unsigned char>(secret[i]);
  }
  return difference == 0;
}

/// The value of the cookie "ahead".
std::string_view token_in_cookie(std::string_view cookies) {
  constexpr std::string_view name = "ahead=";
  while (!cookies.empty()) {
    const std::size_t end = std::min(cookies.find(';'), cookies.size());
    std::string_view one = cookies.substr(0, end);
    one.remove_prefix(std::min(one.find_first_not_of(' '), one.size()));
    if (one.starts_with(name)) return one.substr(name.size());
    cookies.remove_prefix(std::min(end + 1, cookies.size()));
  }
  return {};
}

bool has_token(const Request& request, const Doors& doors) {
  constexpr std::string_view bearer = "Bearer ";
  const std::string_view header = request.header("authorization");
  if (header.starts_with(bearer)) return same_secret(header.substr(bearer.size()), doors.token);
  return same_secret(token_in_cookie(request.header("cookie")), doors.token);
}

bool is_own_host(std::string_view host, const Doors& doors) {
  if (doors.network) return !host.empty();
  const std::array own{fmt::format("127.0.0.1:{}", doors.port),
                       fmt::format("localhost:{}", doors.port),
                       fmt::format("[::1]:{}", doors.port)};
  return std::ranges::find(own, host) != own.end();
}

bool is_own_origin(const Request& request) {
  const std::string_view origin = request.header("origin");
  if (!origin.empty() && origin != fmt::format("http://{}", request.header("host"))) return false;
  // Browsers say where a request comes from even when they send no Origin. A link from elsewhere
  // may open the page; only the page may ask the interface.
  const std::string_view site = request.header("sec-fetch-site");
  const bool from_elsewhere = !site.empty() && site != "same-origin" && site != "none";
  return !from_elsewhere || (request.method == "GET" && !request.path.starts_with("/api/") &&
                             request.header("sec-fetch-mode") == "navigate");
}

bool takes_a_body(std::string_view method) { return method == "POST" || method == "PUT"; }

std::optional<Reply> refused_body(const Request& request, const Limits& limits) {
  if (!request.header("transfer-encoding").empty() || !request.header("content-encoding").empty()) {
    return encoded_body();
  }
  const std::string_view length = request.header("content-length");
  if (!takes_a_body(request.method)) {
    return length.empty() || length == "0" ? std::nullopt
                                           : std::optional(wrong_method("POST, PUT"));
  }
  if (length.empty()) return length_needed();
  std::uint64_t bytes = 0;
  const auto [end, error] = std::from_chars(length.data(), length.data() + length.size(), bytes);
  if (error != std::errc() || end != length.data() + length.size()) return length_needed();
  if (bytes > limits.most_body_bytes) return too_large(limits.most_body_bytes);
  std::string_view type = request.header("content-type");
  type = type.substr(0, type.find(';'));
  // A form or plain text can be sent by any page without asking; JSON cannot.
  if (type != "application/json") return wrong_type();
  return std::nullopt;
}

}  // namespace

std::optional<Reply> refused_at_the_door(const Request& request, const Doors& doors,
                                         const Limits& limits) {
  if (!is_own_host(request.header("host"), doors)) return forbidden_host();
  if (!is_own_origin(request)) return forbidden_origin();
  if (doors.network && !has_token(request, doors)) return token_needed();
  return refused_body(request, limits);
}

std::optional<Reply> handed_token(const Request& request, const Doors& doors) {
  if (!doors.network || request.method != "GET" || request.path != "/") return std::nullopt;
  const auto token = request.query.find("token");
  if (token == request.query.end() || !same_secret(token->second, doors.token)) return std::nullopt;
  Reply reply = json_reply("{}", 303);
  reply.headers.emplace_back("Location", "/");
  reply.headers.emplace_back(
      "Set-Cookie", fmt::format("ahead={}; Path=/; HttpOnly; SameSite=Strict", doors.token));
  return reply;
}

void add_security_headers(Reply& reply) {
  const auto given = [&](std::string_view name) {
    return std::ranges::any_of(reply.headers, [&](const auto& one) { return one.first == name; });
  };
  const auto add = [&](const char* name, const char* value) {
    if (!given(name)) reply.headers.emplace_back(name, value);
  };
  // Style attributes place marks of the drawings; style sheets and scripts come from files only.
  add("Content-Security-Policy",
      "default-src 'none'; script-src 'self'; style-src 'self'; style-src-attr 'unsafe-inline'; "
      "img-src 'self' data: blob:; media-src 'self'; font-src 'self'; connect-src 'self'; "
      "worker-src 'self'; "
      "manifest-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'");
  add("X-Content-Type-Options", "nosniff");
  add("Referrer-Policy", "no-referrer");
  add("Cross-Origin-Opener-Policy", "same-origin");
  add("Cross-Origin-Resource-Policy", "same-origin");
  add("Cache-Control", "no-store");
}

}  // namespace ahead::server
