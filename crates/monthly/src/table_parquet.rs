//! Tables as Parquet, whose columns have kinds.

use std::sync::Arc;

use parquet::basic::{LogicalType, Repetition, Type as Physical};
use parquet::data_type::{BoolType, ByteArray, ByteArrayType, DoubleType, Int64Type};
use parquet::errors::ParquetError;
use parquet::file::properties::WriterProperties;
use parquet::file::writer::SerializedFileWriter;
use parquet::schema::types::Type;

use crate::tables::{CellKind, MonthCell, MonthColumn, MonthTable};

impl MonthTable {
    /// As Parquet, one group of rows, not compressed. The same table gives the same bytes.
    ///
    /// # Errors
    /// What the format can't hold; no table made here has such.
    pub fn parquet(&self) -> Result<Vec<u8>, ParquetError> {
        let fields = self.columns.iter().map(|column| field(column).map(Arc::new)).collect::<Result<_, _>>()?;
        let schema = Type::group_type_builder(self.name).with_fields(fields).build()?;
        let properties = WriterProperties::builder().set_created_by("lengthsman".to_owned()).build();
        let mut writer = SerializedFileWriter::new(Vec::new(), Arc::new(schema), Arc::new(properties))?;
        let mut group = writer.next_row_group()?;
        let mut at = 0;
        while let Some(mut column) = group.next_column()? {
            let cells = || self.rows.iter().map(|row| &row[at]);
            let levels: Vec<i16> = cells().map(|cell| i16::from(*cell != MonthCell::Nothing)).collect();
            let levels = Some(levels.as_slice());
            match self.columns[at].kind {
                CellKind::Text => {
                    let values: Vec<ByteArray> = cells().filter_map(as_text).collect();
                    column.typed::<ByteArrayType>().write_batch(&values, levels, None)?;
                }
                CellKind::Number => {
                    let values: Vec<f64> = cells().filter_map(as_number).collect();
                    column.typed::<DoubleType>().write_batch(&values, levels, None)?;
                }
                CellKind::Whole => {
                    let values: Vec<i64> = cells().filter_map(as_whole).collect();
                    column.typed::<Int64Type>().write_batch(&values, levels, None)?;
                }
                CellKind::YesNo => {
                    let values: Vec<bool> = cells().filter_map(as_yes_no).collect();
                    column.typed::<BoolType>().write_batch(&values, levels, None)?;
                }
            }
            column.close()?;
            at += 1;
        }
        group.close()?;
        writer.into_inner()
    }
}

fn field(column: &MonthColumn) -> Result<Type, ParquetError> {
    let (physical, logical) = match column.kind {
        CellKind::Text => (Physical::BYTE_ARRAY, Some(LogicalType::String)),
        CellKind::Number => (Physical::DOUBLE, None),
        CellKind::Whole => (Physical::INT64, None),
        CellKind::YesNo => (Physical::BOOLEAN, None),
    };
    Type::primitive_type_builder(column.name, physical)
        .with_repetition(Repetition::OPTIONAL)
        .with_logical_type(logical)
        .build()
}

fn as_text(cell: &MonthCell) -> Option<ByteArray> {
    if let MonthCell::Text(text) = cell { Some(text.as_str().into()) } else { None }
}

fn as_number(cell: &MonthCell) -> Option<f64> {
    if let MonthCell::Number(number) = cell { Some(*number) } else { None }
}

fn as_whole(cell: &MonthCell) -> Option<i64> {
    if let MonthCell::Whole(whole) = cell { Some(*whole) } else { None }
}

fn as_yes_no(cell: &MonthCell) -> Option<bool> {
    if let MonthCell::YesNo(yes) = cell { Some(*yes) } else { None }
}
