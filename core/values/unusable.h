// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <stdexcept>

namespace bw {

/// Thrown when a project cannot be assessed at all, worded "problem (why) what is accepted".
class Unusable : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

}  // namespace bw
