using FuelHistory.Client.Api;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Forms;

/// <summary>What a filled form comes to: faults of reading, or a call to make that answers with what was stored, in one sentence.</summary>
internal sealed record Filled(IReadOnlyList<Fault> Faults, Func<CancellationToken, Task<Answer<string>>> Send);

/// <summary>Fields and what becomes of them. Fill gets whether an implausible value was confirmed. The same form serves the
/// screen and the plain command.</summary>
internal sealed record Form(string Title, IReadOnlyList<Field> Fields, Func<bool, Filled> Fill)
{
    public string State => string.Join('\n', Fields.Select(each => each.State));
}
