/**
 * @file
 * Everything of link target trivet. The file format is in trivet/document.h.
 */
#ifndef TRIVET_TRIVET_H
#define TRIVET_TRIVET_H

#include "trivet/base.h"
#include "trivet/checks.h"
#include "trivet/frame.h"
#include "trivet/frame_joins.h"
#include "trivet/frame_usage.h"
#include "trivet/shop.h"
#include "trivet/shop_tables.h"
#include "trivet/statics.h"
#include "trivet/stock.h"

#endif
