// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace bw {

/// State of a check. NotKnown is what a check says when this version or the inputs cannot tell.
enum class Status { Meets, Near, Fails, NotKnown };

/// How bad a state is, the one order wherever states are compared: fails, near limit, not known, meets. Near limit goes before not known
/// because it is known to be tight and something can be done about it; not known goes before meets because it may hide a failure.
constexpr int severity(Status status) {
  switch (status) {
    case Status::Fails:
      return 3;
    case Status::Near:
      return 2;
    case Status::NotKnown:
      return 1;
    case Status::Meets:
      break;
  }
  return 0;
}

constexpr Status worseOf(Status a, Status b) { return severity(a) >= severity(b) ? a : b; }

}  // namespace bw
