// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/json_io.h"
#include "core/library/library_error.h"

#include <string>

namespace bw {

/// Throws Refused where a text in it is no UTF-8 or holds a zero, which no file and no other program could take. `what` names the thing.
void demandText(const Json& json, const std::string& what);

/// Compact text of a description that is to be stored.
std::string storedText(const Json& json);

[[noreturn]] void refuseProblems(const Problems& problems, const std::string& what);
[[noreturn]] void reportDamage(const Problems& problems, const std::string& what);

/// The text under which a value is stored, after reading it back: what would not be read again is Refused.
template <class S>
std::string storedText(const S& value, const std::string& what) {
  const Json json = writeJson(value);
  demandText(json, what);
  S again;
  Problems problems;
  readJson(json, "$", again, problems);
  if (!problems.empty()) refuseProblems(problems, what);
  return storedText(json);
}

/// A stored value; what cannot be read is Corrupt.
template <class S>
S fromStored(const std::string& text, const std::string& what) {
  Problems problems;
  const Json json = parseJson(text, problems);
  S value;
  if (problems.empty()) readJson(json, "$", value, problems);
  if (!problems.empty()) reportDamage(problems, what);
  return value;
}

}  // namespace bw
