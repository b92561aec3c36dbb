#pragma once

#include "capture/capture.h"
#include "capture/footage/capture_footage.h"
#include "formats/capture.h"
#include "formats/footage.h"

/// A capture as its file has it, and a camera back from there.
namespace ahead::capture {

[[nodiscard]] formats::CaptureRecord record_of(const Captured& captured);
[[nodiscard]] formats::FootageRecord record_of(const Footage& footage);
[[nodiscard]] Camera camera_of(const formats::CameraRecord& record);

}  // namespace ahead::capture
