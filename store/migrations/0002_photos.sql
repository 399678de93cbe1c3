-- Bytes that belong to a line of the record, such as a photo.
ALTER TABLE records ADD COLUMN bytes BLOB;
