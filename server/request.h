#pragma once

#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

/// What is asked and what is answered, free of any HTTP library.
namespace ahead::server {

struct Request {
  std::string method;
  std::string path;
  std::vector<std::string> in_path;  ///< what stood in the braces of the route's path
  std::map<std::string, std::string> query;
  std::map<std::string, std::string> headers;  ///< names in lower case
  std::string body;

  /// Empty when the header was not sent.
  [[nodiscard]] std::string_view header(std::string_view lower_case_name) const {
    const auto found = headers.find(std::string(lower_case_name));
    return found == headers.end() ? std::string_view{} : std::string_view(found->second);
  }
};

/// Server-Sent Events to one client.
class EventSink {
 public:
  virtual ~EventSink() = default;
  /// `data` without line breaks. False when the client has gone.
  virtual bool send(std::string_view event, std::string_view data) = 0;
  /// A comment, which clients ignore. False when the client has gone.
  virtual bool send_nothing() = 0;
  /// The client has closed its side, or the server stops.
  [[nodiscard]] virtual bool gone() const = 0;
};

struct Reply {
  int status = 200;
  std::string type = "application/json; charset=utf-8";
  std::shared_ptr<const std::string> body;
  std::vector<std::pair<std::string, std::string>> headers;
  std::function<void(EventSink&)> events;  ///< with it there is no body
  bool close = false;  ///< the connection, as the request was not read to its end
};

[[nodiscard]] inline Reply json_reply(std::string text, int status = 200) {
  return {.status = status, .body = std::make_shared<const std::string>(std::move(text))};
}

}  // namespace ahead::server
