namespace FuelHistory.Client.Api;

/// <summary>Keeps the newest answer's text, so that --json prints what the host said and not our reading of it.</summary>
internal sealed class LastBody
{
    public string Text { get; set; } = "";

    internal sealed class Handler(LastBody keep) : DelegatingHandler
    {
        protected override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
        {
            var response = await base.SendAsync(request, cancellationToken).ConfigureAwait(false);
            await response.Content.LoadIntoBufferAsync(cancellationToken).ConfigureAwait(false);
            keep.Text = await response.Content.ReadAsStringAsync(cancellationToken).ConfigureAwait(false);
            return response;
        }
    }
}
