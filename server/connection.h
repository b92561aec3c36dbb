#pragma once

#include <array>
#include <atomic>
#include <chrono>
#include <cstddef>

#include <httplib.h>

/// One client's socket, with an end to patience.
///
/// The library waits anew for every byte, so a client that sends one a second is served for hours.
/// Here a whole request has one deadline, and so has each piece that is written; and it is noticed
/// at once when the client has gone.
namespace ahead::server {

class Connection : public httplib::Stream {
 public:
  /// `stopping` is looked at while waiting for the next request.
  Connection(socket_t socket, std::chrono::milliseconds whole_request,
             const std::atomic<bool>& stopping);
  /// Lets the client read what was written before the socket is closed.
  ~Connection() override;
  Connection(const Connection&) = delete;
  Connection& operator=(const Connection&) = delete;

  /// Waits for the first byte of a request; false when none came, or the client has gone.
  [[nodiscard]] bool wait_for_request(std::chrono::milliseconds idle);

  /// So many bytes at most belong to one request; more look like the end.
  void begin_request(std::size_t most_bytes);

  /// The client has closed its side.
  [[nodiscard]] bool gone() const;

  // Of httplib::Stream.
  [[nodiscard]] bool is_readable() const override;
  [[nodiscard]] bool is_writable() const override;
  ssize_t read(char* into, size_t size) override;
  ssize_t write(const char* from, size_t size) override;
  void get_remote_ip_and_port(std::string& ip, int& port) const override;
  void get_local_ip_and_port(std::string& ip, int& port) const override;
  [[nodiscard]] socket_t socket() const override { return socket_; }

 private:
  using Clock = std::chrono::steady_clock;
  [[nodiscard]] bool wait(short events, Clock::time_point until) const;

  socket_t socket_;
  std::chrono::milliseconds whole_request_;
  const std::atomic<bool>& stopping_;
  Clock::time_point deadline_;
  std::size_t left_ = 0;  ///< bytes that this request may still send
  std::array<char, 16384> buffer_{};
  std::size_t begin_ = 0;
  std::size_t end_ = 0;
};

}  // namespace ahead::server
