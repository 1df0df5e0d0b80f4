set(sources
  amounts.c bench.c condition.c crew.c pick.c run_store.c sampling.c store.c store_csv.c
  store_head.c store_merge.c store_put.c store_rows.c store_schema.c store_sql.c summary.c sweep.c
  variant_text.c vary.c vary_drawing.c vary_read.c vary_stock.c vary_tuples.c)
