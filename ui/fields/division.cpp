// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/fields/division.h"

#include <QSettings>
#include <QSplitter>

namespace bw {

bool rememberDivision(QSplitter& splitter, const QString& key) {
  const bool before = splitter.restoreState(QSettings().value(key).toByteArray());
  QObject::connect(&splitter, &QSplitter::splitterMoved, &splitter, [&splitter, key] { QSettings().setValue(key, splitter.saveState()); });
  return before;
}

}  // namespace bw
