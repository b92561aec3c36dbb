#pragma once

#include "capture/capture.h"
#include "formats/capture.h"

/// A capture as its file has it, and a camera back from there.
namespace ahead::capture {

[[nodiscard]] formats::CaptureRecord record_of(const Captured& captured);
[[nodiscard]] Camera camera_of(const formats::CameraRecord& record);

}  // namespace ahead::capture
