/*
 * Bars to buy, stock by stock: the pieces sorted into batches, the search, its answer turned back
 * into pieces. Each bar of the answer is then changed for the cheapest and shortest that holds what
 * is cut from it.
 */
#include "shop/cuts_record.h"

#include "base/memory.h"
#include "base/message.h"
#include "shop/bar_search.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Micrometres in a metre; ten-thousandths in one of the currency. */
#define MICRO 1e6
#define MONEY 1e4

/* A kind of bar with what it was in the settings. */
typedef struct kind_row {
    trivet__bar_kind kind;
    double length; /* m */
    double price;  /* NaN: not known */
    int32_t is_bought;
    int32_t number; /* as offered */
    int32_t left;   /* while bars are changed: how many of `have` are not used; -1: no end */
} kind_row;

/* A piece to be cut. */
typedef struct wanted {
    int64_t size;
    int32_t piece;
    int32_t batch;
} wanted;

/* Everything about one stock while it is worked on. */
typedef struct stock_work {
    trivet_cuts *cuts;
    const trivet_shop *shop;
    int32_t stock;
    int64_t kerf;
    kind_row *rows;          /* [row_count] */
    trivet__bar_kind *kinds; /* [row_count] */
    wanted *pieces;          /* [piece_count], longest first */
    trivet__bar_batch *batches;
    trivet__bar_answer answer;
    int32_t row_count;
    int32_t piece_count;
    int32_t batch_count;
} stock_work;

static int by_size(const void *one, const void *other)
{
    const wanted *const a = one;
    const wanted *const b = other;
    if (a->size != b->size) {
        return a->size > b->size ? -1 : 1;
    }
    return a->piece < b->piece ? -1 : 1;
}

/* Cost for size; of equal ones the longer first, then what lies there already. */
static int by_worth(const void *one, const void *other)
{
    const kind_row *const a = one;
    const kind_row *const b = other;
    const double left = (double)a->kind.cost * (double)b->kind.size;
    const double right = (double)b->kind.cost * (double)a->kind.size;
    if (left < right || left > right) {
        return left < right ? -1 : 1;
    }
    if (a->kind.size != b->kind.size) {
        return a->kind.size > b->kind.size ? -1 : 1;
    }
    if (a->is_bought != b->is_bought) {
        return a->is_bought ? 1 : -1;
    }
    return a->number < b->number ? -1 : 1;
}

static void fill_row(const stock_work *work, const trivet_shop_bar *bar, kind_row *row)
{
    const int counts_price = work->shop->aim == TRIVET_AIM_COST;
    row->number = work->row_count - 1;
    row->length = bar->length;
    row->price = bar->price;
    row->is_bought = bar->have < 0;
    row->kind.size = llround(bar->length * MICRO) + work->kerf;
    row->kind.have = bar->have;
    if (counts_price) {
        row->kind.cost = isnan(bar->price) ? 0 : llround(bar->price * MONEY);
    } else {
        row->kind.cost = row->is_bought ? 1 : 0;
    }
}

/* The bars that a stock is offered in: its own, or those for all, or the usual one. */
static trivet_status find_rows(stock_work *work, trivet_message *message)
{
    const trivet_shop *const shop = work->shop;
    int32_t own = 0;
    for (int32_t i = 0; i < shop->bar_count; i++) {
        own += shop->bars[i].stock == work->stock;
    }
    work->rows = trivet__take((size_t)shop->bar_count + 1, sizeof *work->rows);
    work->kinds = trivet__take((size_t)shop->bar_count + 1, sizeof *work->kinds);
    if (!work->rows || !work->kinds) {
        return trivet__no_memory(message);
    }
    for (int32_t i = 0; i < shop->bar_count; i++) {
        const trivet_shop_bar *const bar = &shop->bars[i];
        if (bar->stock == (own > 0 ? work->stock : -1) && bar->have != 0) {
            if (shop->aim == TRIVET_AIM_COST && bar->have < 0 && isnan(bar->price)) {
                return trivet__refuse(message, TRIVET_INCOMPLETE, "shop",
                                      "least cost is aimed at, and a bar to buy has no price",
                                      "give each bar a price, or aim for the fewest bars");
            }
            fill_row(work, bar, &work->rows[work->row_count++]);
        }
    }
    if (work->row_count == 0 && own == 0) {
        trivet_shop_bar usual;
        trivet_shop_bar_defaults(&usual, sizeof usual);
        if (shop->aim == TRIVET_AIM_COST) {
            return trivet__refuse(message, TRIVET_INCOMPLETE, "shop",
                                  "least cost is aimed at, and no bars with prices are given",
                                  "give bars: [{length: 6 m, price: 30}]");
        }
        fill_row(work, &usual, &work->rows[work->row_count++]);
        work->cuts->assumed_bars++;
    }
    qsort(work->rows, (size_t)work->row_count, sizeof *work->rows, by_worth);
    for (int32_t i = 0; i < work->row_count; i++) {
        work->kinds[i] = work->rows[i].kind;
    }
    return TRIVET_OK;
}

static trivet_status find_pieces(stock_work *work, trivet_message *message)
{
    const trivet_cuts *const cuts = work->cuts;
    work->pieces = trivet__take((size_t)cuts->piece_count, sizeof *work->pieces);
    work->batches = trivet__take((size_t)cuts->piece_count, sizeof *work->batches);
    if (!work->pieces || !work->batches) {
        return trivet__no_memory(message);
    }
    for (int32_t i = 0; i < cuts->piece_count; i++) {
        if (cuts->pieces[i].cut.stock == work->stock) {
            wanted *const piece = &work->pieces[work->piece_count++];
            piece->piece = i;
            piece->size = llround(cuts->pieces[i].cut.longest * MICRO) + work->kerf;
            piece->size = piece->size > 0 ? piece->size : 1;
        }
    }
    qsort(work->pieces, (size_t)work->piece_count, sizeof *work->pieces, by_size);
    for (int32_t i = 0; i < work->piece_count; i++) {
        if (i == 0 || work->pieces[i].size != work->pieces[i - 1].size) {
            work->batches[work->batch_count++].size = work->pieces[i].size;
        }
        work->pieces[i].batch = work->batch_count - 1;
        work->batches[work->batch_count - 1].count++;
    }
    return TRIVET_OK;
}

/* The longest piece is longer than every bar, or there are not bars enough. */
static trivet_status refuse_bars(const stock_work *work, trivet_message *message)
{
    char name[TRIVET_THING_MAX];
    char long_piece[64];
    char long_bar[64];
    double longest = 0.0;
    for (int32_t i = 0; i < work->row_count; i++) {
        longest = fmax(longest, work->rows[i].length);
    }
    const int32_t first = work->pieces[0].piece;
    trivet_cuts_piece_text(work->cuts, first, name, sizeof name);
    trivet__refuse(message, TRIVET_BAD_VALUE, "", "",
                   "offer longer bars, or make the piece of two tubes");
    trivet__message_thing(message, "stock %s", work->cuts->frame->stocks[work->stock].name);
    if (llround(longest * MICRO) + work->kerf < work->pieces[0].size) {
        trivet_units_text(NULL, TRIVET_LENGTH, work->cuts->pieces[first].cut.longest, 6, long_piece,
                          sizeof long_piece);
        trivet_units_text(NULL, TRIVET_LENGTH, longest, 6, long_bar, sizeof long_bar);
        trivet__message_problem(message, "piece %s is %s long, and the longest bar %s", name,
                                long_piece, long_bar);
        return TRIVET_BAD_VALUE;
    }
    trivet__message_problem(message, "the bars that are there do not hold all %d pieces",
                            (int)work->piece_count);
    trivet__message_remedy(message, "offer bars to buy as well: a length without \"have\"");
    return TRIVET_BAD_VALUE;
}

static trivet_status search_bars(stock_work *work, trivet_message *message)
{
    const size_t pieces = (size_t)work->piece_count;
    const trivet__bar_problem problem = {.kinds = work->kinds,
                                         .batches = work->batches,
                                         .kind_count = work->row_count,
                                         .batch_count = work->batch_count,
                                         .piece_count = work->piece_count,
                                         .most_steps = work->shop->most_steps};
    if (work->row_count == 0) {
        return refuse_bars(work, message);
    }
    work->answer.kinds = trivet__take(pieces, sizeof *work->answer.kinds);
    work->answer.counts =
        trivet__take(pieces * (size_t)work->batch_count, sizeof *work->answer.counts);
    if (!work->answer.kinds || !work->answer.counts ||
        trivet__bars_search(&problem, &work->answer) != TRIVET_OK) {
        return trivet__no_memory(message);
    }
    return work->answer.bar_count > 0 ? TRIVET_OK : refuse_bars(work, message);
}

static int32_t *filling_of(const stock_work *work, int32_t bar)
{
    return work->answer.counts + (size_t)bar * (size_t)work->batch_count;
}

static int64_t filled(const stock_work *work, int32_t bar)
{
    int64_t sum = 0;
    for (int32_t b = 0; b < work->batch_count; b++) {
        sum += filling_of(work, bar)[b] * work->batches[b].size;
    }
    return sum;
}

/* Changes each bar for the cheapest, then the shortest, that holds what is cut from it. */
static void change_bars(stock_work *work)
{
    for (int32_t i = 0; i < work->row_count; i++) {
        work->rows[i].left = work->rows[i].kind.have;
    }
    for (int32_t i = 0; i < work->answer.bar_count; i++) {
        kind_row *const row = &work->rows[work->answer.kinds[i]];
        row->left -= row->left > 0;
    }
    for (int32_t i = 0; i < work->answer.bar_count; i++) {
        const int64_t sum = filled(work, i);
        int32_t best = work->answer.kinds[i];
        for (int32_t k = 0; k < work->row_count; k++) {
            const trivet__bar_kind *const kind = &work->kinds[k];
            const trivet__bar_kind *const now = &work->kinds[best];
            const int is_better =
                kind->cost < now->cost || (kind->cost == now->cost && kind->size < now->size);
            best = work->rows[k].left != 0 && kind->size >= sum && is_better ? k : best;
        }
        kind_row *const from = &work->rows[work->answer.kinds[i]];
        kind_row *const to = &work->rows[best];
        work->answer.cost += to->kind.cost - from->kind.cost;
        from->left += from->left >= 0;
        to->left -= to->left > 0;
        work->answer.kinds[i] = best;
    }
}

static trivet_status grow(void **list, int32_t count, size_t *capacity, size_t size)
{
    return trivet__make_room(list, (size_t)count, capacity, size) ? TRIVET_OK : TRIVET_NO_MEMORY;
}

/* The pieces of a bar, longest first; the first of a batch that no bar has yet. */
static trivet_status add_bar_pieces(stock_work *work, int32_t bar)
{
    trivet_cuts *const cuts = work->cuts;
    for (int32_t i = 0; i < work->piece_count; i++) {
        int32_t *const count = &filling_of(work, bar)[work->pieces[i].batch];
        if (work->pieces[i].piece < 0 || *count == 0) {
            continue;
        }
        void *list = cuts->bar_pieces;
        const trivet_status status =
            grow(&list, cuts->bar_piece_count, &cuts->bar_piece_capacity, sizeof(int32_t));
        cuts->bar_pieces = list;
        if (status != TRIVET_OK) {
            return status;
        }
        cuts->bar_pieces[cuts->bar_piece_count++] = work->pieces[i].piece;
        work->pieces[i].piece = -1;
        --*count;
    }
    return TRIVET_OK;
}

static trivet_status add_bar(stock_work *work, int32_t bar, trivet_cut_stock *sum)
{
    trivet_cuts *const cuts = work->cuts;
    const kind_row *const row = &work->rows[work->answer.kinds[bar]];
    const int64_t rest = row->kind.size - work->kerf - filled(work, bar);
    void *bars = cuts->bars;
    void *firsts = cuts->bar_first;
    trivet_status status = grow(&bars, cuts->bar_count, &cuts->bar_capacity, sizeof *cuts->bars);
    cuts->bars = bars;
    if (status == TRIVET_OK) {
        status = grow(&firsts, cuts->bar_count, &cuts->bar_first_capacity, sizeof *cuts->bar_first);
        cuts->bar_first = firsts;
    }
    if (status != TRIVET_OK) {
        return status;
    }
    const int32_t at = cuts->bar_count++;
    trivet_cut_bar *const made = &cuts->bars[at];
    trivet_cut_bar_defaults(made, sizeof *made);
    cuts->bar_first[at] = cuts->bar_piece_count;
    status = add_bar_pieces(work, bar);
    made->stock = work->stock;
    made->is_bought = row->is_bought;
    made->length = row->length;
    made->price = row->price;
    made->piece_count = cuts->bar_piece_count - cuts->bar_first[at];
    made->rest = rest > 0 ? (double)rest / MICRO : 0.0;
    sum->rest += made->rest;
    if (row->is_bought) {
        sum->bought++;
        sum->bought_length += row->length;
        sum->price += row->price;
    }
    return status;
}

static trivet_status take_answer(stock_work *work)
{
    trivet_cuts *const cuts = work->cuts;
    trivet_cut_stock sum;
    trivet_cut_stock_defaults(&sum, sizeof sum);
    change_bars(work);
    sum.stock = work->stock;
    sum.piece_count = work->piece_count;
    sum.bar_count = work->answer.bar_count;
    sum.is_proven = work->answer.is_proven || work->answer.cost <= work->answer.bound;
    sum.least = (double)work->answer.bound / (work->shop->aim == TRIVET_AIM_COST ? MONEY : 1.0);
    sum.steps = (double)work->answer.steps;
    for (int32_t i = 0; i < work->piece_count; i++) {
        sum.pieces_length += cuts->pieces[work->pieces[i].piece].cut.longest;
    }
    trivet_status status = TRIVET_OK;
    for (int32_t i = 0; i < work->answer.bar_count && status == TRIVET_OK; i++) {
        status = add_bar(work, i, &sum);
    }
    sum.bought_mass =
        sum.bought_length * trivet__stock_mass_per_length(&cuts->frame->stocks[work->stock]);
    if (status == TRIVET_OK) {
        void *list = cuts->stocks;
        status = grow(&list, cuts->stock_count, &cuts->stock_capacity, sizeof sum);
        cuts->stocks = list;
    }
    if (status == TRIVET_OK) {
        cuts->stocks[cuts->stock_count++] = sum;
        cuts->totals.bought_mass += sum.bought_mass;
        cuts->totals.price += sum.price;
    }
    return status;
}

static trivet_status work_on_stock(trivet_cuts *cuts, const trivet_shop *shop, int32_t stock,
                                   trivet_message *message)
{
    stock_work work = {.cuts = cuts, .shop = shop, .stock = stock};
    work.kerf = llround(shop->kerf * MICRO);
    trivet_status status = find_pieces(&work, message);
    if (status == TRIVET_OK && work.piece_count > 0) {
        status = find_rows(&work, message);
        if (status == TRIVET_OK) {
            status = search_bars(&work, message);
        }
        if (status == TRIVET_OK && take_answer(&work) != TRIVET_OK) {
            status = trivet__no_memory(message);
        }
    }
    trivet__give_back(work.rows);
    trivet__give_back(work.kinds);
    trivet__give_back(work.pieces);
    trivet__give_back(work.batches);
    trivet__give_back(work.answer.kinds);
    trivet__give_back(work.answer.counts);
    return status;
}

trivet_status trivet__cuts_bars(trivet_cuts *cuts, const trivet_shop *shop, trivet_message *message)
{
    trivet_status status = TRIVET_OK;
    for (int32_t s = 0; s < cuts->frame->stock_count && status == TRIVET_OK; s++) {
        status = work_on_stock(cuts, shop, s, message);
    }
    return status;
}
