#pragma once

#include <expected>
#include <optional>
#include <span>
#include <string>
#include <vector>

/// The program ffmpeg, which reads and writes moving pictures for us: started, fed or read through
/// one stream of frames, and listened to.
namespace ahead::formats {

/// Which of its streams carries the frames.
enum class FrameStream { standard_input, standard_output };

class Ffmpeg {
 public:
  /// `arguments` without the program's own name. Where it cannot be started, the error number:
  /// ENOENT when it is not there.
  [[nodiscard]] static std::expected<Ffmpeg, int> start(const std::vector<std::string>& arguments,
                                                        FrameStream stream);
  Ffmpeg(Ffmpeg&& other) noexcept;
  Ffmpeg& operator=(Ffmpeg&&) = delete;
  Ffmpeg(const Ffmpeg&) = delete;
  Ffmpeg& operator=(const Ffmpeg&) = delete;
  /// Stops it, if it still runs.
  ~Ffmpeg();

  /// The socket to or from its stream. A socket and not a pipe: writing to a program that has ended
  /// then fails instead of killing us.
  [[nodiscard]] int frames() const { return frames_; }

  /// All of these bytes to its standard input. False when the program takes no more;
  /// complaint_at_end() then says why.
  [[nodiscard]] bool write(std::span<const unsigned char> bytes) const;

  /// Closes the stream and waits for its end. Nothing when all went well, else what it complained
  /// of first.
  [[nodiscard]] std::optional<std::string> complaint_at_end();

 private:
  Ffmpeg(int program, int frames, int complaints)
      : program_(program), frames_(frames), complaints_(complaints) {}
  void close_frames();

  int program_ = -1;     // process
  int frames_ = -1;      // our end of the stream
  int complaints_ = -1;  // pipe from its standard error
};

}  // namespace ahead::formats
