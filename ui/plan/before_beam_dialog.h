// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/job/job_result.h"
#include "ui/document/project_document.h"

#include <QDialog>

#include <vector>

class QLabel;
class QLineEdit;
class QScrollArea;

namespace bw {

class PrecautionRow;

/// What has to be settled before the beam is on, each item ticked by name. Stays open beside the work and follows the project.
class BeforeBeamDialog : public QDialog {
  Q_OBJECT
 public:
  explicit BeforeBeamDialog(ProjectDocument& document, QWidget* parent = nullptr);

  const std::vector<PrecautionRow*>& rows() const { return m_rows; }

 private:
  void follow();
  void list(const std::vector<Precaution>& all);
  PrecautionRow* makeRow(const Precaution& precaution);
  void nameChanged();
  Clearance clearance(const QString& note) const;

  ProjectDocument& m_document;
  QLabel* m_count;
  QLineEdit* m_name;
  QLabel* m_hint;
  QScrollArea* m_scroll;
  std::vector<Precaution> m_shown;
  std::vector<PrecautionRow*> m_rows;
};

}  // namespace bw
