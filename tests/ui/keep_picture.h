// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>

class QWidget;

namespace bw::test {

/// A picture for people to look at, among the build's screenshots; the checks only see that the whole of it was drawn and kept.
void keepPicture(QWidget* widget, const QString& name);

}  // namespace bw::test
