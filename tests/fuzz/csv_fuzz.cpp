// SPDX-License-Identifier: GPL-3.0-or-later

// Any bytes end in a table or a FileError. Built by tests/fuzz/run.sh with clang's libFuzzer; not part of the ordinary build.

#include "core/files/project_file.h"
#include "core/readings/csv_readings.h"

#include <cmath>
#include <cstdint>
#include <cstdlib>

using namespace bw;

namespace {

void readAs(const CsvTable& table, CsvPurpose purpose) {
  const auto columns = proposeColumns(table, purpose);
  if (columns.size() != table.columns) std::abort();
  if (convertRows(table, columns, 0, 10).size() > 10) std::abort();
  const CsvReadings all = readingsOf(table, columns);
  for (const Reading& reading : all.readings) {
    if (!std::isfinite(reading.value)) std::abort();
  }
  for (const TemperatureSeries& series : all.series) {
    if (series.time_s.size() != series.temperature_C.size()) std::abort();
    for (std::size_t i = 1; i < series.time_s.size(); ++i) {
      if (!(series.time_s[i] >= series.time_s[i - 1])) std::abort();
    }
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  try {
    const CsvTable table = readCsvTable({reinterpret_cast<const char*>(data), size});
    for (const CsvPurpose purpose : {CsvPurpose::Unknown, CsvPurpose::Thickness, CsvPurpose::Temperature}) readAs(table, purpose);
  } catch (const FileError&) {
  }
  return 0;
}
