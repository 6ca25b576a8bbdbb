// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace bw {

/// State of a check. NotKnown is what a check says when this version or the inputs cannot tell.
enum class Status { Meets, Near, Fails, NotKnown };

}  // namespace bw
