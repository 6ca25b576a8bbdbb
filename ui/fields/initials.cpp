// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/fields/initials.h"

#include <QSettings>

namespace bw {
namespace {
const QString initialsKey = QStringLiteral("initials");
}

QString lastInitials() { return QSettings().value(initialsKey).toString(); }
void rememberInitials(const QString& initials) { QSettings().setValue(initialsKey, initials); }

}  // namespace bw
