// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

class QSplitter;
class QString;

namespace bw {

/// Keeps what a person made of a splitter under a key of the settings; true where an earlier division was put back.
bool rememberDivision(QSplitter& splitter, const QString& key);

}  // namespace bw
