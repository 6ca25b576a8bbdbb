// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/readings/csv_reader.h"

#include <QFileInfo>

namespace bw {

CsvReader::CsvReader(QString path, QObject* parent) : QObject(parent), m_path(std::move(path)), m_work(this) {
  begin([path = m_path](std::stop_token) { return studyFile(path, CsvPurpose::Unknown); });
}

QString CsvReader::name() const { return QFileInfo(m_path).fileName(); }

void CsvReader::setFormat(const CsvFormat& format) {
  m_format = format;
  m_reading = true;
  begin([before = m_study, name = name(), format](std::stop_token) { return studyAs(before, name, format, before.purpose); });
}

void CsvReader::setPurpose(CsvPurpose purpose) {
  m_reading = true;
  begin([before = m_study, name = name(), format = m_format, purpose](std::stop_token) { return studyAs(before, name, format, purpose); });
}

void CsvReader::setColumns(std::vector<ColumnMapping> columns) {
  if (m_reading) return;
  m_study.columns = columns;  // shown at once; what follows from them a moment later
  begin([before = m_study, columns = std::move(columns)](std::stop_token) { return studyWith(before, columns); });
}

}  // namespace bw
