// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/learn/learnt.h"
#include "core/values/range.h"
#include "tests/support/catch.h"

#include <string>
#include <vector>

namespace bw::test {

/// Low, likely and high all this number but for rounding: what noise-free readings give.
inline void checkExact(const Range& range, double value, double relative = 1e-7) {
  CHECK(range.low == Catch::Approx(value).epsilon(relative));
  CHECK(range.likely == Catch::Approx(value).epsilon(relative));
  CHECK(range.high == Catch::Approx(value).epsilon(relative));
}

template <class T>
bool says(const Learnt<T>& learnt, const std::string& words) {
  for (const std::string& remark : learnt.remarks) {
    if (remark.find(words) != std::string::npos) return true;
  }
  return false;
}

/// No value, and a sentence with these words.
template <class T>
void checkRefused(const Learnt<T>& learnt, const std::string& words) {
  CHECK_FALSE(learnt.value);
  CHECK_THAT(learnt.problem, Catch::Matchers::Contains(words));
}

}  // namespace bw::test
