set(sources store.c store_csv.c store_head.c store_merge.c store_put.c store_rows.c store_schema.c store_sql.c)
