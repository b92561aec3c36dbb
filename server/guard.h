#pragma once

#include <optional>
#include <string>

#include "server/limits.h"
#include "server/request.h"

/// Who may ask. Looked at before a request's body is read.
///
/// Any page that the browser shows can send requests to a loopback address, and a name that its
/// owner points at 127.0.0.1 makes such a page look like ours. So the Host must be the address
/// that we listen on, and a request that says where it comes from must come from there.
namespace ahead::server {

struct Doors {
  int port = 0;
  bool network = false;  ///< other machines may ask, with the token
  std::string token;     ///< empty without `network`
};

/// The refusal, or nothing when the request may be served.
[[nodiscard]] std::optional<Reply> refused_at_the_door(const Request& request, const Doors& doors,
                                                       const Limits& limits);

/// /?token=T: keeps the token in a cookie that no script can read, and takes it out of the address.
[[nodiscard]] std::optional<Reply> handed_token(const Request& request, const Doors& doors);

/// Headers of every reply: nothing but our own files may run, be shown or be asked.
void add_security_headers(Reply& reply);

}  // namespace ahead::server
