using System.Collections.Concurrent;
using FuelHistory.Client.Api;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Screens;

/// <summary>Fault models, kept once loaded: they do not change while a host runs.</summary>
internal sealed class Knowledge(ApiCalls calls)
{
    private readonly ConcurrentDictionary<string, FaultModelView> _models = new();

    public async Task<Answer<FaultModelView>> Model(string id, CancellationToken ct)
    {
        if (_models.TryGetValue(id, out var known)) return new Got<FaultModelView>(known);
        var answer = await calls.Ask(api => api.FaultModel(id, ct)).ConfigureAwait(false);
        if (answer is Got<FaultModelView> got) _models[id] = got.Value;
        return answer;
    }

    /// <summary>The tools that any of the fault models names, each once.</summary>
    public async Task<Answer<IReadOnlyList<NamedThing>>> Tools(IReadOnlyList<FaultModelHead> systems, CancellationToken ct)
    {
        Answer<IReadOnlyList<NamedThing>> tools = new Got<IReadOnlyList<NamedThing>>([]);
        foreach (var head in systems)
            tools = await tools.Then(async known => (await Model(head.Id, ct).ConfigureAwait(false))
                .As<IReadOnlyList<NamedThing>>(model => [.. known.Concat(model.Tools).DistinctBy(tool => tool.Id)])).ConfigureAwait(false);
        return tools;
    }
}
