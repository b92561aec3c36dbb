#include "server/connection.h"

#include <algorithm>
#include <cerrno>

#include <arpa/inet.h>
#include <netinet/in.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

namespace ahead::server {
namespace {

using namespace std::chrono_literals;

/// Of an address that getpeername() or getsockname() filled in.
void put_address(const sockaddr_storage& address, std::string& ip, int& port) {
  std::array<char, INET6_ADDRSTRLEN> text{};
  // The sockets interface passes addresses of every family as one type.
  if (address.ss_family == AF_INET) {
    const auto* v4 = reinterpret_cast<const sockaddr_in*>(&address);
    inet_ntop(AF_INET, &v4->sin_addr, text.data(), text.size());
    port = ntohs(v4->sin_port);
  } else if (address.ss_family == AF_INET6) {
    const auto* v6 = reinterpret_cast<const sockaddr_in6*>(&address);
    inet_ntop(AF_INET6, &v6->sin6_addr, text.data(), text.size());
    port = ntohs(v6->sin6_port);
  }
  ip = text.data();
}

}  // namespace

Connection::Connection(socket_t socket, std::chrono::milliseconds whole_request,
                       const std::atomic<bool>& stopping)
    : socket_(socket), whole_request_(whole_request), stopping_(stopping) {}

Connection::~Connection() {
  // Closing with unread bytes would reset the connection and take the answer with it.
  ::shutdown(socket_, SHUT_WR);
  const auto until = Clock::now() + 200ms;
  std::size_t drained = 0;
  constexpr std::size_t most_drained = 1'000'000;
  while (drained < most_drained && wait(POLLIN, until)) {
    const ssize_t got = ::recv(socket_, buffer_.data(), buffer_.size(), MSG_DONTWAIT);
    if (got <= 0) break;
    drained += static_cast<std::size_t>(got);
  }
  ::close(socket_);
}

bool Connection::wait(short events, Clock::time_point until) const {
  for (;;) {
    const auto left =
        std::chrono::duration_cast<std::chrono::milliseconds>(until - Clock::now()).count();
    pollfd one{.fd = socket_, .events = events, .revents = 0};
    const int ready = ::poll(&one, 1, static_cast<int>(std::clamp<long>(left, 0, 100'000)));
    if (ready > 0) return (one.revents & (events | POLLHUP | POLLERR)) != 0;
    if (ready == 0) return false;
    if (errno != EINTR) return false;
  }
}

bool Connection::wait_for_request(std::chrono::milliseconds idle) {
  const auto until = Clock::now() + idle;
  while (begin_ == end_) {
    if (stopping_ || Clock::now() >= until) return false;
    if (wait(POLLIN, std::min(until, Clock::now() + 100ms))) return !gone();
  }
  return true;
}

void Connection::begin_request(std::size_t most_bytes) {
  deadline_ = Clock::now() + whole_request_;
  left_ = most_bytes;
}

bool Connection::gone() const {
  char next = 0;
  const ssize_t got = ::recv(socket_, &next, 1, MSG_PEEK | MSG_DONTWAIT);
  return got == 0 || (got < 0 && errno != EAGAIN && errno != EWOULDBLOCK && errno != EINTR);
}

bool Connection::is_readable() const {
  return begin_ < end_ || wait(POLLIN, std::min(deadline_, Clock::now()));
}

bool Connection::is_writable() const {
  return !stopping_ && !gone() && wait(POLLOUT, Clock::now() + whole_request_);
}

ssize_t Connection::read(char* into, size_t size) {
  if (begin_ == end_) {
    if (!wait(POLLIN, deadline_)) return -1;
    const ssize_t got = ::recv(socket_, buffer_.data(), buffer_.size(), 0);
    if (got <= 0) return got;
    begin_ = 0;
    end_ = static_cast<std::size_t>(got);
  }
  const std::size_t count = std::min({size, end_ - begin_, left_});
  std::copy_n(buffer_.data() + begin_, count, into);
  begin_ += count;
  left_ -= count;
  return static_cast<ssize_t>(count);
}

ssize_t Connection::write(const char* from, size_t size) {
  if (!wait(POLLOUT, Clock::now() + whole_request_)) return -1;
  return ::send(socket_, from, size, MSG_NOSIGNAL | MSG_DONTWAIT);
}

void Connection::get_remote_ip_and_port(std::string& ip, int& port) const {
  sockaddr_storage address{};
  socklen_t size = sizeof(address);
  if (::getpeername(socket_, reinterpret_cast<sockaddr*>(&address), &size) == 0) {
    put_address(address, ip, port);
  }
}

void Connection::get_local_ip_and_port(std::string& ip, int& port) const {
  sockaddr_storage address{};
  socklen_t size = sizeof(address);
  if (::getsockname(socket_, reinterpret_cast<sockaddr*>(&address), &size) == 0) {
    put_address(address, ip, port);
  }
}

}  // namespace ahead::server
