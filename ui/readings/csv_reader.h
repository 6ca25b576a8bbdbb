// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/readings/csv_study.h"
#include "ui/runner/newest_work.h"

namespace bw {

/// Studies a file in the background; of several wishes in a row only the newest counts. The file itself is read once.
class CsvReader : public QObject {
  Q_OBJECT
 public:
  explicit CsvReader(QString path, QObject* parent = nullptr);

  QString name() const;
  const CsvStudy& study() const { return m_study; }
  bool isBusy() const { return m_work.isBusy(); }

  /// Only once the file was read: its bytes are what is read anew.
  void setFormat(const CsvFormat& format);
  void setPurpose(CsvPurpose purpose);
  /// Not heeded while the table is read anew, for then they would be another table's.
  void setColumns(std::vector<ColumnMapping> columns);

 signals:
  void studied();

 private:
  template <class Work>
  void begin(Work work) {
    m_work.begin(std::move(work), [this](CsvStudy study) {
      m_study = std::move(study);
      m_reading = false;
      emit studied();
    });
  }

  QString m_path;
  CsvStudy m_study;
  std::optional<CsvFormat> m_format;  // as chosen; nothing: as the file tells
  bool m_reading = true;              // the table itself: what columns mean must wait for it
  NewestWork m_work;
};

}  // namespace bw
