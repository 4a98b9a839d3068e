using System.Text.Json;
using FuelHistory.Client.Api;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Forms;

/// <summary>The call that voids an entry of a kind, as the record names the kinds.</summary>
internal static class Voiding
{
    public static readonly IReadOnlyList<string> Kinds = ["odometer", "lay-up", "incident", "work", "limit", "finding", "complaint", "instrument", "leak-down", "set-aside"];

    public static Task<Answer<JsonElement>> Call(ApiCalls calls, string kind, string id, VoidRequest body, CancellationToken ct) => calls.Ask(api => kind switch
    {
        "odometer" => api.VoidOdometer(id, body, ct),
        "lay-up" => api.VoidLayUp(id, body, ct),
        "incident" => api.VoidIncident(id, body, ct),
        "work" => api.VoidWork(id, body, ct),
        "limit" => api.VoidLimit(id, body, ct),
        "finding" => api.VoidFinding(id, body, ct),
        "complaint" => api.VoidComplaint(id, body, ct),
        "instrument" => api.VoidInstrument(id, body, ct),
        "set-aside" => api.VoidSetAside(id, body, ct),
        "leak-down" => api.VoidLeakDown(id, body, ct),
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "not an entry that can be voided"),
    });
}
