using System.IO.Compression;
using Dapper;
using FuelHistory.Contracts;
using FuelHistory.Host.Sqlite;
using Microsoft.Data.Sqlite;

namespace FuelHistory.Host.Features.LeakImports;

/// <summary>Loggers' files as they were sent, packed and in parts: read and written without holding one whole.</summary>
public sealed class LeakImportStore
{
    private const int PartBytes = 256 * 1024;

    private const string Insert = """
        INSERT INTO leak_import (leak_down_id, recorded_at, sha256, bytes, form, samples, before_stop)
        VALUES (@leakDownId, @recordedAt, @Sha256, @Bytes, @form, @Samples, @BeforeStop)
        RETURNING seq
        """;

    private const string InsertPart = "INSERT INTO leak_import_part (import_seq, place, packed) VALUES (@seq, @place, @packed)";

    private const string SelectSeq = "SELECT seq FROM leak_import WHERE leak_down_id = @leakDownId";

    private const string SelectPart = "SELECT packed FROM leak_import_part WHERE import_seq = @seq AND place = @place";

    public long Add(Session session, string leakDownId, LeakImport import, Stream packed)
    {
        var seq = session.Connection.QuerySingle<long>(Insert, new
        {
            leakDownId,
            recordedAt = Times.Write(session.Now),
            import.Sha256,
            import.Bytes,
            form = Lists.Write(import.Form),
            import.Samples,
            import.BeforeStop,
        });
        var buffer = new byte[PartBytes];
        int read;
        for (var place = 0; (read = packed.ReadAtLeast(buffer, PartBytes, throwOnEndOfStream: false)) > 0; place++)
        {
            session.Connection.Execute(InsertPart, new { seq, place, packed = read == PartBytes ? buffer : buffer[..read] });
        }

        return seq;
    }

    /// <returns>Null where no file came in.</returns>
    public long? Find(SqliteConnection connection, string leakDownId) => connection.QuerySingleOrDefault<long?>(SelectSeq, new { leakDownId });

    public static async Task CopyTo(SqliteConnection connection, long seq, Stream into, CancellationToken cancelled)
    {
        await using GZipStream content = new(new Parts(connection, seq), CompressionMode.Decompress);
        await content.CopyToAsync(into, cancelled);
    }

    // the parts one behind the other, as one stream
    private sealed class Parts(SqliteConnection connection, long seq) : Stream
    {
        private ReadOnlyMemory<byte> part;
        private int place;

        public override bool CanRead => true;
        public override bool CanSeek => false;
        public override bool CanWrite => false;
        public override long Length => throw new NotSupportedException();
        public override long Position { get => throw new NotSupportedException(); set => throw new NotSupportedException(); }

        public override int Read(byte[] buffer, int offset, int count) => Read(buffer.AsSpan(offset, count));

        public override int Read(Span<byte> buffer)
        {
            if (part.IsEmpty && connection.QuerySingleOrDefault<byte[]>(SelectPart, new { seq, place = place++ }) is { } next)
            {
                part = next;
            }

            var taken = part[..Math.Min(buffer.Length, part.Length)];
            taken.Span.CopyTo(buffer);
            part = part[taken.Length..];
            return taken.Length;
        }

        public override void Flush()
        {
        }

        public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();
        public override void SetLength(long value) => throw new NotSupportedException();
        public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();
    }
}
