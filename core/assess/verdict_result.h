// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/status.h"

#include <string>
#include <vector>

namespace bw {

/// One row of the verdict. `question` is the row's title, `check` its stable name in the results.
struct VerdictRow {
  std::string check;
  std::string question;
  Status status = Status::NotKnown;
  std::string message;
  std::string remedy;  // what to try, in words; empty where nothing need be done
};

/// Of all rows; not known where there are none.
inline Status worstOf(const std::vector<VerdictRow>& rows) {
  if (rows.empty()) return Status::NotKnown;
  Status worst = Status::Meets;
  for (const VerdictRow& row : rows) worst = worseOf(worst, row.status);
  return worst;
}

struct FindOutNext {
  std::string what;
  std::string how;
  std::string narrows;
};

/// How one number came about, in words: what a reader would put on paper to check it.
struct Working {
  std::string key;                  // the check or the result it explains, e.g. "back_face" or "job.total_time_s"
  std::string name;                 // "Back face"
  std::string formula;              // in words: "mean dose = mean power x lit share / (travel x step-over)"
  std::vector<std::string> values;  // what was put in, one a line: "mean power 255 W (yours)"
  std::string source;
};

}  // namespace bw
