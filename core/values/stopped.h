// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <exception>
#include <stop_token>

namespace bw {

/// Thrown when a calculation was told to stop.
class Stopped : public std::exception {};

/// Throws Stopped if told to stop; asked again and again in long loops.
inline void throwIfStopped(const std::stop_token& stop) {
  if (stop.stop_requested()) throw Stopped();
}

}  // namespace bw
