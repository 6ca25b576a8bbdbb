// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "tests/support/fake_assessment.h"
#include "tests/ui/deepened.h"
#include "ui/plan/verdict_panel.h"
#include "ui/plan/verdict_row.h"

#include <QCoreApplication>

namespace bw::test {

/// Without the spaces that keep number and unit on one line.
inline QString plain(QString text) { return text.replace(QChar(0xa0), QLatin1Char(' ')); }

inline VerdictRowView* rowOf(const VerdictPanel& panel, const std::string& check) {
  for (VerdictRowView* row : panel.rows()) {
    if (row->check() == check) return row;
  }
  return nullptr;
}

inline void showPanel(VerdictPanel& panel, const Assessment& assessment, bool moreToCome = false) {
  panel.setProject(fake::panel());
  panel.setAssessment(fake::shared(assessment), moreToCome);
  panel.resize(300, 1600);
  panel.show();
  QCoreApplication::processEvents();
}

}  // namespace bw::test
