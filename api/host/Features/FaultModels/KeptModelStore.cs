using Dapper;
using FuelHistory.Host.Sqlite;
using Microsoft.Data.Sqlite;

namespace FuelHistory.Host.Features.FaultModels;

/// <summary>A text of a fault model that was in use from an instant on, until the next of its id.</summary>
public sealed record KeptModel(long Seq, string Revision, string Sha256, DateTimeOffset From);

/// <summary>The texts of fault models, whole and packed, in the order in which they came into use.</summary>
public sealed class KeptModelStore
{
    private const string SelectOfModel = """
        SELECT seq AS Seq, revision AS Revision, sha256 AS Sha256, in_use_from AS InUseFrom
        FROM fault_model
        WHERE model_id = @modelId
        ORDER BY seq
        """;

    private const string Insert = """
        INSERT INTO fault_model (model_id, revision, sha256, packed, in_use_from)
        VALUES (@modelId, @revision, @sha256, @packed, @from)
        """;

    private const string SelectPacked = "SELECT packed FROM fault_model WHERE seq = @seq";

    public IReadOnlyList<KeptModel> Of(SqliteConnection connection, string modelId) =>
        [.. connection.Query<Row>(SelectOfModel, new { modelId }).Select(r => new KeptModel(r.Seq, r.Revision, r.Sha256, Times.Read(r.InUseFrom)))];

    public void Keep(Session session, KnownModel model, DateTimeOffset from) => session.Connection.Execute(Insert, new
    {
        modelId = model.Id,
        revision = model.Revision,
        sha256 = model.Sha256,
        packed = model.Packed(),
        from = Times.Write(from),
    });

    public string Text(SqliteConnection connection, KeptModel kept) => PackedText.Unpack(connection.QuerySingle<byte[]>(SelectPacked, new { seq = kept.Seq }));

    internal sealed record Row
    {
        public long Seq { get; init; }
        public string Revision { get; init; } = "";
        public string Sha256 { get; init; } = "";
        public string InUseFrom { get; init; } = "";
    }
}
